using Microsoft.Win32.SafeHandles;

namespace Athwart.Jobs.TakeIn;

/// <summary>
/// Copies files one after another: this thread reads the card and writes, one thread hashes the same blocks, one reads the
/// copy back. While the end of a file is still being settled, the next is already copied.
/// </summary>
internal sealed class CopyPipeline : IDisposable
{
    // Long enough for the disk to work in peace, short enough to follow closely; a multiple of every page size, so that no
    // page of one stretch is kept in memory by the next.
    private const long Stretch = 8 << 20;

    private readonly TakeInDisk _disk;
    private readonly CardHasher _hasher;
    private readonly CopyVerifier _verifier;

    public CopyPipeline(TakeInDisk disk, ProgressMeter progress, Action<FileCopy, string> settled)
    {
        _disk = disk;
        _verifier = new CopyVerifier(disk, progress, settled);
        _hasher = new CardHasher();
    }

    /// <summary>Copies one file; how it ended is told to <c>settled</c>.</summary>
    /// <exception cref="OperationCanceledException">Asked to end; the unfinished copy is thrown away.</exception>
    public void Copy(FileCopy file, CancellationToken cancellation)
    {
        try
        {
            CopyBytes(file, cancellation);
        }
        catch (FileFailure failure)
        {
            file.Fail(failure);
            GiveSpaceBack(file);
        }
        catch (OperationCanceledException)
        {
            file.Fail(new("The take-in was ended before this file was whole. Run it again to go on.") { Cancelled = true });
            throw;
        }
        finally
        {
            _hasher.End(file);
            _verifier.End(file);
        }
    }

    /// <summary>Waits until every file is settled.</summary>
    public void Finish() => _verifier.Finish();

    public void Dispose()
    {
        _verifier.Dispose();
        _hasher.Dispose();
    }

    /// <summary>Files copied before are still to be recorded, and on a full disk the catalogue needs a little space for that.</summary>
    private void GiveSpaceBack(FileCopy file)
    {
        try
        {
            if (file.Handle is { } handle)
                _disk.Empty(handle);
        }
        catch (Exception error) when (FileFailure.IsFileError(error))
        {
            // It is removed at its turn all the same.
        }
    }

    private void CopyBytes(FileCopy file, CancellationToken cancellation)
    {
        using var card = OfCard(() => _disk.OpenCard(file.Card.FullPath));
        var handle = OfLibrary(() => _disk.CreatePart(file.Part));
        file.Handle = handle;
        long offset = 0, handedOver = 0;
        while (true)
        {
            cancellation.ThrowIfCancellationRequested();
            if (file.Failure is not null)
                return;
            var block = _hasher.Rent();
            var length = 0;
            try
            {
                length = OfCard(() => _disk.ReadCard(card, block, offset));
                OfLibrary(() => Write(handle, block, length, offset));
            }
            finally
            {
                _hasher.Hash(file, block, length);
            }

            offset += length;
            if (offset - handedOver >= Stretch || (length == 0 && offset > handedOver))
            {
                _disk.StartWriting(handle, handedOver, offset - handedOver);
                _verifier.Check(file, handedOver, offset - handedOver);
                handedOver = offset;
            }

            if (length == 0)
                break;
        }

        if (offset != file.Card.Length)
            throw new FileFailure($"It was {file.Card.Length} bytes long when the card was listed and gave {offset}. Check whether something still writes to the card, then run this again.");
    }

    private bool Write(SafeFileHandle handle, byte[] block, int length, long offset)
    {
        if (length > 0)
            _disk.WritePart(handle, block.AsSpan(0, length), offset);
        return true;
    }

    private static T OfCard<T>(Func<T> step)
    {
        try
        {
            return step();
        }
        catch (Exception error) when (FileFailure.IsFileError(error))
        {
            throw FileFailure.OfCard(error);
        }
    }

    private static T OfLibrary<T>(Func<T> step)
    {
        try
        {
            return step();
        }
        catch (Exception error) when (FileFailure.IsFileError(error))
        {
            throw FileFailure.OfLibrary(error);
        }
    }
}
