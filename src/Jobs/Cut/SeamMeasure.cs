using Athwart.Metering.Events;
using Athwart.Signals.Loops;

namespace Athwart.Jobs.Cut;

/// <summary>Measures the seam of a loop against the rest of it.</summary>
internal static class SeamMeasure
{
    private const int StepsTogether = 20;
    private const double AroundSeconds = 0.5;
    private const int BlockFrames = 1 << 16;

    /// <summary>No measure.</summary>
    public static SeamProof Nothing { get; } = new()
    {
        SpectralJumpDecibels = 0,
        SpectralUsualDecibels = 0,
        ElsewhereMostDecibels = 0,
        ElsewhereLargestDecibels = 0,
        LevelJumpDecibels = 0,
        LevelElsewhereDecibels = 0,
        WrapDecibels = 0,
    };

    /// <summary>Measures.</summary>
    public static SeamProof Prove(PairReader reader, long from, long to, LoopSeam seam)
    {
        var around = (long)(AroundSeconds * reader.SampleRateHertz);
        var seamChanges = Changes(Seam(reader, from, to, seam, around));
        var rest = new EventFinder(reader.SampleRateHertz);
        for (var at = from; at < to - seam.CrossfadeFrames; at += BlockFrames)
            Add(rest, reader.Read(at, Math.Min(at + BlockFrames, to - seam.CrossfadeFrames)));
        var elsewhere = Changes(rest.LevelsBy(StepsTogether));
        return new()
        {
            SpectralJumpDecibels = Round(seamChanges.Select(c => c.Spectrum).DefaultIfEmpty(0).Max()),
            SpectralUsualDecibels = Round(Share(seamChanges.Select(c => c.Spectrum), 0.5)),
            ElsewhereMostDecibels = Round(Share(elsewhere.Select(c => c.Spectrum), 0.95)),
            ElsewhereLargestDecibels = Round(Share(elsewhere.Select(c => c.Spectrum), 1)),
            LevelJumpDecibels = Round(seamChanges.Select(c => c.Level).DefaultIfEmpty(0).Max()),
            LevelElsewhereDecibels = Round(Share(elsewhere.Select(c => c.Level), 1)),
            WrapDecibels = Round(Wrap(reader, from, to, seam)),
        };
    }

    // The loop as it is heard about the seam: some of it, the cross-fade, and its beginning again.
    private static (float[] Levels, int Rows) Seam(PairReader reader, long from, long to, LoopSeam seam, long around)
    {
        var finder = new EventFinder(reader.SampleRateHertz);
        Add(finder, reader.Read(Math.Max(from, to - seam.CrossfadeFrames - around), to - seam.CrossfadeFrames));
        Add(finder, Blended(reader, from, to, seam));
        Add(finder, reader.Read(from, Math.Min(to, from + around)));
        return finder.LevelsBy(StepsTogether);
    }

    private static (double[] Mid, double[] Side) Blended(PairReader reader, long from, long to, LoopSeam seam)
    {
        var (mid, side) = reader.Read(to - seam.CrossfadeFrames, to);
        var (comingMid, comingSide) = reader.Read(from - seam.CrossfadeFrames, from);
        LoopCrossfade.Blend(mid, comingMid, 0, seam);
        LoopCrossfade.Blend(side, comingSide, 0, seam);
        return (mid, side);
    }

    private static void Add(EventFinder finder, (double[] Mid, double[] Side) pair) =>
        finder.Add(Array.ConvertAll(pair.Mid, x => (float)x), Array.ConvertAll(pair.Side, x => (float)x));

    private static List<(double Spectrum, double Level)> Changes((float[] Levels, int Rows) track)
    {
        var (levels, rows) = track;
        var changes = new List<(double, double)>();
        // The filters of the first steps are still filling.
        for (var step = 2; step < levels.Length / rows; step++)
        {
            var (squares, before, after) = (0.0, 0.0, 0.0);
            for (var row = 0; row < rows; row++)
            {
                var (was, now) = ((double)levels[((step - 1) * rows) + row], (double)levels[(step * rows) + row]);
                squares += (now - was) * (now - was);
                before += Math.Pow(10, was / 10);
                after += Math.Pow(10, now / 10);
            }

            changes.Add((Math.Sqrt(squares / rows), Math.Abs(10 * Math.Log10(after / before))));
        }

        return changes;
    }

    private static double Wrap(PairReader reader, long from, long to, LoopSeam seam)
    {
        var (mid, side) = Blended(reader, from, to, seam);
        var (nextMid, nextSide) = reader.Read(from, from + 1);
        return Math.Max(Step(mid, nextMid[0]), Step(side, nextSide[0]));

        static double Step(double[] samples, double next)
        {
            var steps = 0.0;
            for (var i = 1; i < samples.Length; i++)
                steps += (samples[i] - samples[i - 1]) * (samples[i] - samples[i - 1]);
            var usual = Math.Sqrt(steps / Math.Max(1, samples.Length - 1));
            var jump = Math.Abs(next - samples[^1]);
            // A step of less than −100 dBFS is none.
            return jump < 1e-5 ? -100 : 20 * Math.Log10(jump / Math.Max(usual, 1e-9));
        }
    }

    private static double Share(IEnumerable<double> values, double share) =>
        values.Order().ToArray() is { Length: > 0 } sorted ? sorted[(int)Math.Ceiling(share * (sorted.Length - 1))] : 0;

    private static double Round(double value) => Math.Round(value, 2);
}
