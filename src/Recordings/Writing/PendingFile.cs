using System.Globalization;
using Microsoft.Win32.SafeHandles;

namespace Athwart.Recordings;

/// <summary>A file under a temporary name beside its target that gets its name when it is complete, or disappears.</summary>
internal sealed class PendingFile : IDisposable
{
    private readonly string _target;
    private readonly string _temporary;
    private readonly bool _overwrite;
    private SafeFileHandle? _handle;

    public PendingFile(string target, bool overwrite)
    {
        _target = Path.GetFullPath(target);
        _overwrite = overwrite;
        if (!overwrite && Path.Exists(_target))
            throw new IOException($"'{target}' is already there and was not replaced; choose another name or remove it first");
        var name = string.Create(CultureInfo.InvariantCulture, $".athwart-{Guid.NewGuid():N}.partial");
        _temporary = Path.Combine(Path.GetDirectoryName(_target) ?? ".", name);
        // A new file under a new name: truncating and overwriting a large one costs more.
        _handle = File.OpenHandle(_temporary, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.Read);
    }

    /// <summary>Writes bytes at a place.</summary>
    public void Write(ReadOnlySpan<byte> bytes, long offset)
    {
        ObjectDisposedException.ThrowIf(_handle is null, this);
        RandomAccess.Write(_handle, bytes, offset);
    }

    /// <summary>Hands the bytes to the disk if asked, and gives the file its name.</summary>
    public void Complete(bool durable)
    {
        ObjectDisposedException.ThrowIf(_handle is null, this);
        if (durable)
            RandomAccess.FlushToDisk(_handle);
        _handle.Dispose();
        try
        {
            File.Move(_temporary, _target, _overwrite);
        }
        catch
        {
            TryDelete();
            throw;
        }
        finally
        {
            _handle = null;
        }

        if (durable)
            FolderFlush.Flush(Path.GetDirectoryName(_target) ?? ".");
    }

    /// <summary>Removes the file unless it is complete.</summary>
    public void Dispose()
    {
        if (_handle is null)
            return;
        _handle.Dispose();
        _handle = null;
        TryDelete();
    }

    private void TryDelete()
    {
        try
        {
            File.Delete(_temporary);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The disk may be gone; the error that brought us here matters more.
        }
    }
}
