using Microsoft.Win32.SafeHandles;

namespace Athwart.Recordings;

/// <summary>Bytes read by position; safe for several threads.</summary>
internal abstract class ByteSource : IDisposable
{
    /// <summary>The name to show in errors.</summary>
    public abstract string Path { get; }

    /// <summary>The bytes there are.</summary>
    public abstract long Length { get; }

    /// <summary>Fills the span as far as there are bytes.</summary>
    /// <returns>The bytes read: fewer than asked only at the end.</returns>
    public abstract int Read(long offset, Span<byte> bytes);

    /// <inheritdoc/>
    public virtual void Dispose()
    {
    }
}

/// <summary>The bytes of a file.</summary>
internal sealed class FileByteSource : ByteSource
{
    private readonly SafeFileHandle _handle;

    public FileByteSource(string path)
    {
        Path = path;
        _handle = File.OpenHandle(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, FileOptions.None);
        try
        {
            Length = RandomAccess.GetLength(_handle);
        }
        catch
        {
            _handle.Dispose();
            throw;
        }
    }

    public override string Path { get; }

    public override long Length { get; }

    public override int Read(long offset, Span<byte> bytes)
    {
        var total = 0;
        while (total < bytes.Length)
        {
            var read = RandomAccess.Read(_handle, bytes[total..], offset + total);
            if (read == 0)
                break;
            total += read;
        }

        return total;
    }

    public override void Dispose()
    {
        _handle.Dispose();
        base.Dispose();
    }
}

/// <summary>Bytes in memory, for tests that must not touch a disk.</summary>
internal sealed class MemoryByteSource(ReadOnlyMemory<byte> bytes, string path = "memory") : ByteSource
{
    public override string Path { get; } = path;

    public override long Length => bytes.Length;

    public override int Read(long offset, Span<byte> destination)
    {
        if (offset >= bytes.Length)
            return 0;
        var count = (int)Math.Min(destination.Length, bytes.Length - offset);
        bytes.Span.Slice((int)offset, count).CopyTo(destination);
        return count;
    }
}
