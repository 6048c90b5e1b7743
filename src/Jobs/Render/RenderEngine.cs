using Athwart.Jobs.Shape;
using Athwart.Jobs.Storage;
using Athwart.Recordings;

namespace Athwart.Jobs.Render;

/// <summary>Renders recipes: streams the cut once, in constant memory, with the same bytes on any number of threads.</summary>
/// <remarks>
/// Where the output word holds the mid exactly (integers no shorter than the source's, same rate, no trim) only the product g·side is
/// rounded, and (left + right) / 2 is the mid to the bit; the frames of a fade excepted. Everything else is computed in double precision
/// and rounded once, with opposite dither on left and right, so that the mono fold stays within half a step of the mid.
/// </remarks>
public static class RenderEngine
{
    /// <summary>Renders a recipe from its opened source.</summary>
    /// <param name="source">The take the recipe is about; read from several threads.</param>
    /// <param name="recipe">What to do; its files and hashes are not looked at.</param>
    /// <param name="target">The file to write; it appears when it is complete.</param>
    /// <param name="options">How to run.</param>
    /// <param name="cancellation">Stops between chunks and leaves nothing behind.</param>
    /// <exception cref="RenderException">The recording does not fit the recipe, or the integer word cannot hold the result: nothing is left behind, and the trim needed is named.</exception>
    /// <exception cref="RecordingException">The source cannot be read.</exception>
    /// <exception cref="IOException">The target cannot be written, or exists.</exception>
    public static RenderResult Render(IRecording source, Recipe recipe, string target, RenderOptions options, CancellationToken cancellation)
    {
        var plan = RenderPlan.Create(recipe, source);
        source = LoopedRecording.Of(source, recipe.Source);
        BroadcastExtension? broadcast;
        using var sink = new RenderSink(plan, target, options);
        var feed = plan.IsTreated ? new TreatedFeed(source, plan) : null;
        ChunkPipeline.Run(
            plan.Chunks(),
            options.Threads,
            () => new ChunkWorker(source, plan),
            new(feed?.Parts ?? 0, (worker, part, chunk) => worker.Treat(feed!, part, chunk), static (worker, chunk) => worker.Render(chunk), sink.Add),
            cancellation);
        broadcast = sink.Complete();
        return new(target, plan.OutputFrames, sink.ExactFrames, sink.SamplePeak, options.Hash ? WholeFile.Sha256(target) : "", new FileInfo(target).Length, broadcast)
        {
            Findings = feed?.Findings ?? [],
        };
    }

    /// <summary>Measures what a recipe renders, before it is rounded to a word.</summary>
    /// <param name="source">The take.</param>
    /// <param name="recipe">What to do; usually one without a trim.</param>
    /// <param name="meter">Also measures true peak and loudness; null for the sample peak alone.</param>
    /// <param name="threads">Threads, 1 or more.</param>
    /// <param name="cancellation">Stops between chunks.</param>
    public static ProgrammeLevels Measure(IRecording source, Recipe recipe, IProgrammeMeter? meter, int threads, CancellationToken cancellation)
    {
        var plan = RenderPlan.Create(recipe, source);
        source = LoopedRecording.Of(source, recipe.Source);
        var listener = new LevelListener(plan, meter);
        var feed = plan.IsTreated ? new TreatedFeed(source, plan) : null;
        ChunkPipeline.Run(
            plan.Chunks(),
            threads,
            () => new LevelWorker(source, plan),
            new(feed?.Parts ?? 0, (worker, part, chunk) => worker.Treat(feed!, part, chunk), static (worker, chunk) => worker.Compute(chunk), listener.Add),
            cancellation);
        return listener.Complete();
    }

    /// <summary>Copies two channels of a cut as they are: mid first, the recording's own rate and words, to the bit.</summary>
    /// <param name="source">The take.</param>
    /// <param name="recipe">Names the channels and the cut; treatment and output are not looked at, and an inverted side stays as recorded.</param>
    /// <param name="target">The file to write.</param>
    /// <param name="metadata">What travels in it besides the samples.</param>
    /// <param name="extra">Chunks carried as bytes.</param>
    /// <param name="options">How to run; one thread is used.</param>
    /// <param name="cancellation">Stops between chunks and leaves nothing behind.</param>
    public static RenderResult WriteRawPair(IRecording source, Recipe recipe, string target, RecipeMetadata metadata, IReadOnlyList<RawChunk> extra, RenderOptions options, CancellationToken cancellation)
    {
        var pair = recipe with { Treatment = recipe.Treatment with { Steps = null }, Output = recipe.Output with { Kind = RenderKind.Stereo, SampleRateHertz = source.SampleRateHertz } };
        var plan = RenderPlan.Create(pair, source);
        using var writer = WaveWriter.Create(target, RenderSink.Options(metadata, source.Format, 2, source.SampleRateHertz, options) with { Extra = extra });
        RawPairCopy.Run(source, plan, writer, options.Progress, cancellation);
        writer.Complete();
        return new(target, plan.CutLength, plan.CutLength, double.NaN, options.Hash ? WholeFile.Sha256(target) : "", new FileInfo(target).Length, writer.Broadcast);
    }
}
