namespace Athwart.Jobs.Render;

/// <summary>Computes chunks on several threads and hands them over in order on the caller's.</summary>
internal static class ChunkPipeline
{
    /// <summary>Runs all chunks.</summary>
    /// <param name="chunks">The chunks in order.</param>
    /// <param name="threads">Threads that compute, 1 or more.</param>
    /// <param name="newWorker">Makes the buffers of one thread.</param>
    /// <param name="compute">Computes a chunk in a worker's buffers.</param>
    /// <param name="deliver">Takes each chunk in order, on this thread.</param>
    /// <param name="cancellation">Stops between chunks.</param>
    public static void Run<TWorker>(IEnumerable<RenderChunk> chunks, int threads, Func<TWorker> newWorker, Action<TWorker, RenderChunk> compute, Action<TWorker, RenderChunk> deliver, CancellationToken cancellation)
    {
        if (threads <= 1)
        {
            RunHere(chunks, newWorker(), compute, deliver, cancellation);
            return;
        }

        var underway = new Queue<(Task Work, TWorker Worker, RenderChunk Chunk)>();
        var idle = new Stack<TWorker>();
        try
        {
            foreach (var chunk in chunks)
            {
                cancellation.ThrowIfCancellationRequested();
                // One more than threads, so that they have work while this thread writes.
                if (underway.Count > threads)
                    idle.Push(Next(underway, deliver));
                var worker = idle.TryPop(out var free) ? free : newWorker();
                underway.Enqueue((Task.Run(() => compute(worker, chunk), CancellationToken.None), worker, chunk));
            }

            while (underway.Count > 0)
            {
                cancellation.ThrowIfCancellationRequested();
                Next(underway, deliver);
            }
        }
        finally
        {
            // Nobody may still read when the caller closes the files.
            foreach (var (work, _, _) in underway)
                ((IAsyncResult)work).AsyncWaitHandle.WaitOne();
        }
    }

    private static void RunHere<TWorker>(IEnumerable<RenderChunk> chunks, TWorker worker, Action<TWorker, RenderChunk> compute, Action<TWorker, RenderChunk> deliver, CancellationToken cancellation)
    {
        foreach (var chunk in chunks)
        {
            cancellation.ThrowIfCancellationRequested();
            compute(worker, chunk);
            deliver(worker, chunk);
        }
    }

    private static TWorker Next<TWorker>(Queue<(Task Work, TWorker Worker, RenderChunk Chunk)> underway, Action<TWorker, RenderChunk> deliver)
    {
        var (work, worker, chunk) = underway.Dequeue();
        work.GetAwaiter().GetResult();
        deliver(worker, chunk);
        return worker;
    }
}
