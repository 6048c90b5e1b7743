namespace Athwart.Jobs.Cut;

/// <summary>What a loop has to be.</summary>
/// <param name="FirstFrame">The loop and what leads into it lie from here on.</param>
/// <param name="EndFrame">And before this.</param>
/// <param name="LeastFrames">Shortest loop, at least the cross-fade.</param>
/// <param name="CrossfadeFrames">Length of the cross-fade.</param>
internal sealed record LoopSettings(long FirstFrame, long EndFrame, long LeastFrames, long CrossfadeFrames)
{
    private const double UsualCrossfadeSeconds = 0.75;

    /// <summary>The usual: all of the take, at least a third of it, led over in 0.75 s, or an eighth of what there is if that is less.</summary>
    public static LoopSettings For(PairReader reader, long? first = null, long? end = null, double? leastSeconds = null, double? crossfadeSeconds = null)
    {
        var (from, to) = (first ?? 0, end ?? reader.FrameCount);
        var crossfade = Math.Max(1, (long)Math.Min((crossfadeSeconds ?? UsualCrossfadeSeconds) * reader.SampleRateHertz, (to - from) / 8.0));
        var least = leastSeconds is { } seconds ? (long)(seconds * reader.SampleRateHertz) : (to - from) / 3;
        return new(from, to, Math.Max(crossfade, least), crossfade);
    }
}
