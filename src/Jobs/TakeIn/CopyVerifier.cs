using System.Collections.Concurrent;
using System.Security.Cryptography;

namespace Athwart.Jobs.TakeIn;

/// <summary>
/// Follows the copier on a thread of its own: waits until a stretch is on the disk, drops it from memory, reads it back and
/// hashes it; at the end compares, seals and renames.
/// </summary>
/// <remarks>
/// A part gets its final name only after it was read back and found equal, so a file with a final name is whole, whenever the
/// power goes. The queue is short: it holds the copier back when the disk cannot follow.
/// </remarks>
internal sealed class CopyVerifier : IDisposable
{
    private const int BlockBytes = 512 * 1024;
    private const int Ahead = 8;

    private readonly TakeInDisk _disk;
    private readonly Action<FileCopy, string> _settled;
    private readonly ProgressMeter _progress;
    private readonly BlockingCollection<(FileCopy File, long Offset, long Length, bool IsEnd)> _work = new(Ahead);
    private readonly byte[] _block = new byte[BlockBytes];
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly Task _thread;

    /// <param name="disk">Where the copies are.</param>
    /// <param name="progress">Told of every byte read back.</param>
    /// <param name="settled">Called for every copy, on the verifier's thread, with the hash; the copy is under its final name or says why not.</param>
    public CopyVerifier(TakeInDisk disk, ProgressMeter progress, Action<FileCopy, string> settled)
    {
        _disk = disk;
        _progress = progress;
        _settled = settled;
        _thread = Task.Factory.StartNew(Run, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
    }

    /// <summary>Hands over a stretch that was written.</summary>
    public void Check(FileCopy file, long offset, long length) => Add((file, offset, length, false));

    /// <summary>Ends a file.</summary>
    public void End(FileCopy file) => Add((file, 0, 0, true));

    /// <summary>Waits for all that was handed over; what <c>settled</c> threw is thrown here.</summary>
    public void Finish()
    {
        _work.CompleteAdding();
        _thread.GetAwaiter().GetResult();
    }

    public void Dispose()
    {
        _work.CompleteAdding();
        // After a failure of the whole job the thread has ended with the exception that Finish or Add has thrown.
        ((IAsyncResult)_thread).AsyncWaitHandle.WaitOne();
        _hash.Dispose();
        _work.Dispose();
    }

    private void Add((FileCopy File, long Offset, long Length, bool IsEnd) item)
    {
        // A dead verifier takes nothing out of the queue any more: do not wait for it for ever.
        while (!_work.TryAdd(item, millisecondsTimeout: 200))
        {
            if (_thread.IsCompleted)
                _thread.GetAwaiter().GetResult();
        }
    }

    private void Run()
    {
        foreach (var (file, offset, length, isEnd) in _work.GetConsumingEnumerable())
        {
            if (isEnd)
                Settle(file);
            else if (file.Failure is null)
                Guard(file, () => ReadBack(file, offset, length));
        }
    }

    private void Settle(FileCopy file)
    {
        var cardHash = file.CardHash.Task.GetAwaiter().GetResult();
        var copyHash = _hash.GetHashAndReset();
        if (file.Failure is null && !CryptographicOperations.FixedTimeEquals(cardHash, copyHash))
            file.Fail(new("The copy that was read back from the disk differs from the card; it was thrown away. Check the disk of the library and the memory of the computer, then run this again.") { Differs = true });
        if (file.Failure is null)
            Guard(file, () => Finish(file));
        file.Handle?.Dispose();
        if (file.Failure is not null)
            Discard(file);
        _settled(file, Convert.ToHexStringLower(cardHash));
    }

    private void ReadBack(FileCopy file, long offset, long length)
    {
        var handle = file.Handle!;
        _disk.Settle(handle, offset, length);
        for (var end = offset + length; offset < end;)
        {
            var read = _disk.ReadBack(handle, _block.AsSpan(0, (int)Math.Min(BlockBytes, end - offset)), offset);
            if (read == 0)
                return;
            _hash.AppendData(_block, 0, read);
            offset += read;
            _progress.AddBytes(read, file.Card.CardPath);
        }
    }

    private void Finish(FileCopy file)
    {
        _disk.Seal(file.Handle!, file.Card.Modified);
        file.Handle!.Dispose();
        _disk.Rename(file.Part, file.Target);
        _disk.SyncFolder(Path.GetDirectoryName(file.Target)!);
    }

    private void Discard(FileCopy file)
    {
        try
        {
            _disk.Delete(file.Part);
        }
        catch (Exception error) when (FileFailure.IsFileError(error))
        {
            // It stays under its unfinished name, and the next take-in of the session removes it.
        }
    }

    private static void Guard(FileCopy file, Action step)
    {
        try
        {
            step();
        }
        catch (Exception error) when (FileFailure.IsFileError(error))
        {
            file.Fail(FileFailure.OfLibrary(error));
        }
    }
}
