namespace Athwart.Jobs.Render;

/// <summary>Computes chunks on several threads and hands them over in order on the caller's.</summary>
internal static class ChunkPipeline
{
    /// <summary>Runs all chunks.</summary>
    /// <param name="chunks">The chunks in order.</param>
    /// <param name="threads">Threads that compute, 1 or more.</param>
    /// <param name="newWorker">Makes the buffers of one thread.</param>
    /// <param name="work">What is done to each chunk.</param>
    /// <param name="cancellation">Stops between chunks.</param>
    public static void Run<TWorker>(IEnumerable<RenderChunk> chunks, int threads, Func<TWorker> newWorker, ChunkWork<TWorker> work, CancellationToken cancellation)
    {
        if (threads <= 1)
        {
            RunHere(chunks, newWorker(), work, cancellation);
            return;
        }

        var underway = new Queue<(Task Work, TWorker Worker, RenderChunk Chunk)>();
        var idle = new Stack<TWorker>();
        var gates = new Task[work.Parts];
        Array.Fill(gates, Task.CompletedTask);
        try
        {
            foreach (var chunk in chunks)
            {
                cancellation.ThrowIfCancellationRequested();
                // One more than threads, so that they have work while this thread writes.
                if (underway.Count > threads)
                    idle.Push(Next(underway, work));
                var worker = idle.TryPop(out var free) ? free : newWorker();
                underway.Enqueue((Start(worker, chunk, work, gates), worker, chunk));
            }

            while (underway.Count > 0)
            {
                cancellation.ThrowIfCancellationRequested();
                Next(underway, work);
            }
        }
        finally
        {
            // Nobody may still read when the caller closes the files.
            foreach (var (task, _, _) in underway)
                ((IAsyncResult)task).AsyncWaitHandle.WaitOne();
        }
    }

    private static void RunHere<TWorker>(IEnumerable<RenderChunk> chunks, TWorker worker, ChunkWork<TWorker> work, CancellationToken cancellation)
    {
        foreach (var chunk in chunks)
        {
            cancellation.ThrowIfCancellationRequested();
            for (var part = 0; part < work.Parts; part++)
                work.InOrder(worker, part, chunk);
            work.Compute(worker, chunk);
            work.Deliver(worker, chunk);
        }
    }

    // Each part waits for the same part of the chunk before, so that several chunks are at different parts at once.
    private static Task Start<TWorker>(TWorker worker, RenderChunk chunk, ChunkWork<TWorker> work, Task[] gates)
    {
        if (work.Parts == 0)
            return Task.Run(() => work.Compute(worker, chunk), CancellationToken.None);
        var (before, done) = ((Task[])gates.Clone(), new TaskCompletionSource[work.Parts]);
        for (var part = 0; part < work.Parts; part++)
        {
            done[part] = new(TaskCreationOptions.RunContinuationsAsynchronously);
            gates[part] = done[part].Task;
        }

        return Task.Run(() => Follow(worker, chunk, work, before, done), CancellationToken.None);
    }

    private static async Task Follow<TWorker>(TWorker worker, RenderChunk chunk, ChunkWork<TWorker> work, Task[] before, TaskCompletionSource[] done)
    {
        var part = 0;
        try
        {
            for (; part < work.Parts; part++)
            {
                await before[part].ConfigureAwait(false);
                work.InOrder(worker, part, chunk);
                done[part].SetResult();
            }

            work.Compute(worker, chunk);
        }
        catch
        {
            // The chunks that follow must not wait for ever; the first failure is the one that is reported.
            for (; part < work.Parts; part++)
                done[part].TrySetCanceled(CancellationToken.None);
            throw;
        }
    }

    private static TWorker Next<TWorker>(Queue<(Task Work, TWorker Worker, RenderChunk Chunk)> underway, ChunkWork<TWorker> work)
    {
        var (task, worker, chunk) = underway.Dequeue();
        task.GetAwaiter().GetResult();
        work.Deliver(worker, chunk);
        return worker;
    }
}

/// <summary>What is done to each chunk of a rendering.</summary>
/// <param name="Parts">How many parts of the work go through the chunks in order; 0 for none.</param>
/// <param name="InOrder">Does one such part, before the rest; parts of one chunk in order, chunks of one part in order.</param>
/// <param name="Compute">Does the rest in a worker's buffers; in any order.</param>
/// <param name="Deliver">Takes each chunk in order, on the caller's thread.</param>
internal sealed record ChunkWork<TWorker>(int Parts, Action<TWorker, int, RenderChunk> InOrder, Action<TWorker, RenderChunk> Compute, Action<TWorker, RenderChunk> Deliver);
