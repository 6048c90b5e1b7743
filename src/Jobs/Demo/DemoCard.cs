using System.Collections.Concurrent;

namespace Athwart.Jobs.Demo;

/// <summary>
/// The card of a day at a canal lock and its lift bridge: eight takes by our own synthesis, laid out as recorders lay them,
/// with the faults real cards have. Every byte is the same on every machine and every run.
/// </summary>
/// <remarks>
/// Sounds are put in front of a model rig: a cardioid mid, (1 + cos θ)/2, and a figure-8 side, sin θ, positive lobe left, equally
/// sensitive and at one point. Surroundings arrive diffuse, side/mid 0 dB and unrelated; each microphone adds its own noise.
/// The arithmetic is + − × ÷ and square root on IEEE doubles in a fixed order, chance is a counted generator, and takes do not
/// share state, so neither processor nor number of threads changes a sample.
/// </remarks>
public static class DemoCard
{
    private const string Below = "260514";

    /// <summary>Writes the card: about 60 MB in some seconds, takes side by side on all cores.</summary>
    /// <param name="folder">Where; made when missing. Files of the same names are replaced, others left alone.</param>
    /// <param name="progress">Told after each take, from any thread; null for none.</param>
    /// <param name="cancellation">Stops between takes and before one is written; what is complete stays.</param>
    /// <returns>The files and the truth about them.</returns>
    /// <exception cref="IOException">The folder cannot be written.</exception>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static DemoCardReport Write(string folder, IProgress<DemoProgress>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        Directory.CreateDirectory(Path.Combine(folder, Below));
        var takes = new ConcurrentDictionary<int, (DemoTake Take, IReadOnlyList<DemoFile> Files)>();
        try
        {
            // 96 kHz takes come first in the day and take longest, so handing them out one by one keeps both cores busy to the end.
            var options = new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount, CancellationToken = cancellation };
            Parallel.ForEach(Partitioner.Create(DemoPlan.Day, EnumerablePartitionerOptions.NoBuffering), options, plan =>
            {
                takes[plan.Number] = new DemoTakeWriter(folder, Below, plan).Write(cancellation);
                progress?.Report(new(takes.Count, DemoPlan.Day.Count, plan.Title));
            });
        }
        catch (AggregateException failure) when (failure.InnerException is IOException or UnauthorizedAccessException)
        {
            throw new IOException($"the demo card could not be written to '{folder}': {failure.InnerException.Message}", failure.InnerException);
        }

        var inOrder = takes.OrderBy(t => t.Key).Select(t => t.Value).ToList();
        var files = inOrder.SelectMany(t => t.Files).Concat(DemoSidecars.Write(folder, Below)).OrderBy(f => f.Path, StringComparer.Ordinal);
        return new(folder, [.. files], [.. inOrder.Select(t => t.Take)]);
    }
}
