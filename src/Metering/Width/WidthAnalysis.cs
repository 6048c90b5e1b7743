using Athwart.Metering.Faults;
using Athwart.Quantities;

namespace Athwart.Metering.Width;

/// <summary>From the sums of a take to its width; nothing is read again.</summary>
/// <remarks>With left = m + g·s and right = m − g·s: ΣLL − ΣRR = 4g·Σms, and Σ LR = Σmm − g²·Σss.</remarks>
public static class WidthAnalysis
{
    private const int MostMoments = 5, LeanHops = 30, LastThird = 12, FirstThird = -9;
    private const double NearlyMono = 0.95, LeastShare = 0.01, ThreeDecibels = 1.9952623149688795;

    /// <summary>Measures; a take without sound has no moments and levels that are not known.</summary>
    public static WidthMeasures Of(TakeMeasures measures)
    {
        ArgumentNullException.ThrowIfNull(measures);
        var (track, g) = (measures.Track, measures.SideGain);
        var total = track.Complete();
        var bands = Bands(measures);
        var windows = Windows(track, g);
        return new()
        {
            WorstMoments = Worst(track, windows, g),
            LeftMinusRight = new(Lean(new(0, 0, total.FirstSquared, total.SecondSquared, total.Product), g)),
            FurthestLean = Furthest(track, g),
            MonoLoss = [.. bands.Select(b => new MonoLossBand(b.Hertz, 10 * Math.Log10(1 + (g * g * b.Side / b.Mid))))],
            SafeForMono = bands.Count == 0 ? null : Level(bands.Max(b => b.Side / b.Mid), ThreeDecibels - 1),
            SafeForCorrelation = windows.Count == 0 ? null : Level(windows.Max(w => w.Sums.SideSide / w.Sums.MidMid), 1),
            WideFrom = WideFrom(total),
        };
    }

    /// <summary>The side level at which a ratio of powers reaches a limit.</summary>
    private static Decibels Level(double ratio, double limit) => new(10 * Math.Log10(limit / ratio));

    // For uncorrelated mid and side r = (1 − x)/(1 + x) with x = g²·S/M; correlation of mid and side only lowers what is needed a little.
    private static Decibels? WideFrom(PairSums total) => total is { FirstSquared: > 0, SecondSquared: > 0 }
        ? Level(total.SecondSquared / total.FirstSquared, (1 - NearlyMono) / (1 + NearlyMono))
        : null;

    private static double Lean(HopSums sums, double g)
    {
        var (both, cross) = (sums.MidMid + (g * g * sums.SideSide), 2 * g * sums.MidSide);
        return both + cross > PairCorrelation.RoundingShare * both && both - cross > PairCorrelation.RoundingShare * both ? 10 * Math.Log10((both + cross) / (both - cross)) : double.NaN;
    }

    /// <summary>Every 400 ms that can be heard.</summary>
    private static List<(int Hop, HopSums Sums, double Correlation)> Windows(PairTrack track, double g)
    {
        var all = Enumerable.Range(0, Math.Max(0, track.Hops.Count - PairCorrelation.WindowHops + 1)).Select(i => (Hop: i, Sums: PairCorrelation.Window(track, i))).ToList();
        double Power(HopSums s) => (s.MidMid + (g * g * s.SideSide)) / (0.4 * track.Grid.SampleRateHertz);
        var gate = Math.Max(PairCorrelation.QuietestMeanSquare, all.Select(w => Power(w.Sums)).Append(0).Max() * PairCorrelation.BelowLoudest);
        return [.. all.Where(w => Power(w.Sums) > gate && w.Sums.MidMid > 0).Select(w => (w.Hop, w.Sums, PairCorrelation.Of(w.Sums, g)))];
    }

    private static List<WidthMoment> Worst(PairTrack track, List<(int Hop, HopSums Sums, double Correlation)> windows, double g)
    {
        var taken = new List<(int Hop, HopSums Sums, double Correlation)>();
        foreach (var window in windows.Where(w => w.Correlation < 0).OrderBy(w => w.Correlation))
        {
            if (taken.Count == MostMoments)
                break;
            if (taken.TrueForAll(t => Math.Abs(t.Hop - window.Hop) >= PairCorrelation.WindowHops))
                taken.Add(window);
        }

        return [.. taken.Select(t => new WidthMoment(Place(track, t.Hop, PairCorrelation.WindowHops), t.Correlation))];
    }

    private static WidthMoment? Furthest(PairTrack track, double g)
    {
        if (track.Hops.Count < LeanHops)
            return null;
        var sum = default(HopSums);
        var (loudest, all) = (0.0, new List<(int Hop, double Power, double Lean)>());
        for (var i = 0; i < track.Hops.Count; i++)
        {
            sum = Add(sum, track.Hops[i], 1);
            if (i >= LeanHops)
                sum = Add(sum, track.Hops[i - LeanHops], -1);
            if (i < LeanHops - 1)
                continue;
            var power = sum.MidMid + (g * g * sum.SideSide);
            loudest = Math.Max(loudest, power);
            all.Add((i - LeanHops + 1, power, Lean(sum, g)));
        }

        // What is 20 dB below the loudest leans where nobody listens.
        var heard = all.Where(a => a.Power > 0.01 * loudest && double.IsFinite(a.Lean)).ToList();
        if (heard.Count == 0)
            return null;
        var most = heard.MaxBy(a => Math.Abs(a.Lean));
        return new(Place(track, most.Hop, LeanHops), most.Lean);
    }

    private static HopSums Add(HopSums a, HopSums b, int sign) =>
        new(a.Mid + (sign * b.Mid), a.Side + (sign * b.Side), a.MidMid + (sign * b.MidMid), a.SideSide + (sign * b.SideSide), a.MidSide + (sign * b.MidSide));

    private static FrameRange Place(PairTrack track, int hop, int hops) =>
        FrameRange.FromFrames(track.Grid.FrameOf((long)hop * TenMillisecondGrid.HopSteps), track.Grid.FrameOf((long)(hop + hops) * TenMillisecondGrid.HopSteps));

    private static List<(double Hertz, double Mid, double Side)> Bands(TakeMeasures m)
    {
        if (m.Faults?.Cross is not { Groups: > 0 } cross)
            return [];
        var width = m.SampleRateHertz / (double)PairCross.Length;
        var all = Enumerable.Range(FirstThird, LastThird - FirstThird + 1).Select(n => 1000 * Math.Pow(2, n / 3.0)).Where(f => f * 1.13 < m.SampleRateHertz / 2.0)
            .Select(f => (Hertz: f, Mid: Sum(cross.Mid, f, width), Side: Sum(cross.Side, f, width))).ToList();
        var total = all.Sum(b => b.Mid + (m.SideGain * m.SideGain * b.Side));
        return all.FindAll(b => b.Mid > 0 && b.Mid + (m.SideGain * m.SideGain * b.Side) > LeastShare * total);
    }

    private static double Sum(double[] power, double centre, double width)
    {
        var sum = 0.0;
        for (var k = Math.Max(1, (int)Math.Round(centre / 1.122462 / width)); k < Math.Min(power.Length, (int)Math.Round(centre * 1.122462 / width)); k++)
            sum += power[k];
        return sum;
    }
}
