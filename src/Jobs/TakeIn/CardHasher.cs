using System.Collections.Concurrent;
using System.Security.Cryptography;

namespace Athwart.Jobs.TakeIn;

/// <summary>Hashes what is read from the card, on a thread of its own, while the copier writes the same blocks.</summary>
internal sealed class CardHasher : IDisposable
{
    public const int BlockBytes = 512 * 1024;
    private const int Blocks = 8;

    private readonly BlockingCollection<byte[]> _free = [];
    private readonly BlockingCollection<(FileCopy File, byte[]? Block, int Length)> _work = [];
    private readonly Task _thread;

    public CardHasher()
    {
        for (var i = 0; i < Blocks; i++)
            _free.Add(new byte[BlockBytes]);
        _thread = Task.Factory.StartNew(Run, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
    }

    /// <summary>A block to read into; waits until one is free.</summary>
    public byte[] Rent() => _free.Take();

    /// <summary>Hands a block over; it may still be read by the caller's own write only until <see cref="Rent"/> gives it out again, so write first.</summary>
    public void Hash(FileCopy file, byte[] block, int length) => _work.Add((file, block, length));

    /// <summary>Ends a file: its hash is known soon.</summary>
    public void End(FileCopy file) => _work.Add((file, null, 0));

    public void Dispose()
    {
        _work.CompleteAdding();
        _thread.Wait();
        _work.Dispose();
        _free.Dispose();
    }

    private void Run()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var (file, block, length) in _work.GetConsumingEnumerable())
        {
            if (block is null)
            {
                file.CardHash.TrySetResult(hash.GetHashAndReset());
                continue;
            }

            hash.AppendData(block, 0, length);
            _free.Add(block);
        }
    }
}
