using Athwart.Metering.Events;
using Athwart.Signals.Loops;

namespace Athwart.Jobs.Cut;

/// <summary>Finds the best loop of a take: by levels first, then to the frame by correlation, then by how its seam compares.</summary>
internal static class LoopFinding
{
    private const int StepsTogether = 10;
    private const int Candidates = 6;
    private const double LagSeconds = 0.012;
    private const double CompareSeconds = 0.1;

    /// <summary>The best loop, or null when the take is too short for any.</summary>
    /// <param name="reader">The take.</param>
    /// <param name="finder">A finder that has heard all of it.</param>
    /// <param name="settings">What the loop has to be.</param>
    public static FoundLoop? Find(PairReader reader, EventFinder finder, LoopSettings settings)
    {
        var (levels, rows) = finder.LevelsBy(StepsTogether);
        var step = reader.SampleRateHertz * (double)StepsTogether / 200;
        var (first, last) = ((int)Math.Ceiling(settings.FirstFrame / step), (int)(settings.EndFrame / step));
        var crossfade = Math.Max(1, (int)Math.Ceiling(settings.CrossfadeFrames / step));
        var least = Math.Max(crossfade, (int)Math.Ceiling(settings.LeastFrames / step));
        var part = levels.AsSpan(first * rows, Math.Max(0, Math.Min(last * rows, levels.Length) - (first * rows)));
        FoundLoop? best = null;
        foreach (var places in LoopSearch.Find(part, rows, crossfade, least, Candidates))
        {
            var loop = ToTheFrame(reader, (long)((first + places.From) * step), (long)((first + places.To) * step), settings);
            var found = loop with { Proof = SeamMeasure.Prove(reader, loop.FromFrame, loop.ToFrame, loop.Seam) };
            if (best is null || Rank(found) < Rank(best))
                best = found;
        }

        return best;
    }

    private static double Rank(FoundLoop loop) =>
        (loop.Proof.Holds ? 0 : 100) + (loop.Proof.SpectralJumpDecibels / Math.Max(0.1, loop.Proof.ElsewhereLargestDecibels)) + (loop.Proof.LevelJumpDecibels / Math.Max(0.1, loop.Proof.LevelElsewhereDecibels));

    // The end is moved within some milliseconds to where the two sounds are most alike; noise is alike nowhere, and stays.
    private static FoundLoop ToTheFrame(PairReader reader, long from, long to, LoopSettings settings)
    {
        var lag = (int)Math.Min(LagSeconds * reader.SampleRateHertz, Math.Max(0, settings.EndFrame - to));
        var count = (int)Math.Min(CompareSeconds * reader.SampleRateHertz, settings.CrossfadeFrames);
        var (mid, side) = reader.Read(from - count, from);
        var (otherMid, otherSide) = reader.Read(to - count - lag, to + lag);
        var (best, shift) = (double.NegativeInfinity, lag);
        for (var k = 0; k <= 2 * lag; k++)
        {
            var alike = LoopCrossfade.Correlation(mid, side, otherMid.AsSpan(k, count), otherSide.AsSpan(k, count));
            if (alike > best)
                (best, shift) = (alike, k);
        }

        to += shift - lag;
        return Seamed(reader, from, to, settings.CrossfadeFrames);
    }

    /// <summary>A loop between two given frames, its law measured; the proof is still to come.</summary>
    public static FoundLoop Seamed(PairReader reader, long from, long to, long crossfade)
    {
        var (mid, side) = reader.Read(from - crossfade, from);
        var (otherMid, otherSide) = reader.Read(to - crossfade, to);
        // Two digits are enough for the law, and read well in a recipe; sounds against each other are faded as strangers.
        var alike = Math.Round(Math.Max(0, LoopCrossfade.Correlation(mid, side, otherMid, otherSide)), 2);
        return new(from, to, new(crossfade, alike), SeamMeasure.Nothing);
    }
}
