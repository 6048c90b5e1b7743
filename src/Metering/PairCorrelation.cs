using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>Correlation of the decoded left and right from sums of mid and side.</summary>
internal static class PairCorrelation
{
    internal const int WindowHops = 4;
    internal const double QuietestMeanSquare = 1e-7; // −70 dBFS
    internal const double BelowLoudest = 1e-4; // 40 dB

    // Below this share of its parts a sum is the rounding error of its additions, not a signal.
    internal const double RoundingShare = 1e-12;

    /// <summary>r = ΣLR / √(ΣLL·ΣRR); NaN when a channel is silent.</summary>
    public static double Of(HopSums sums, double sideGain)
    {
        var (mm, ss, cross) = (sums.MidMid, sideGain * sideGain * sums.SideSide, 2 * sideGain * sums.MidSide);
        var (left, right) = (mm + ss + cross, mm + ss - cross);
        if (!(Math.Min(left, right) > RoundingShare * (mm + ss)))
            return double.NaN;
        return Math.Clamp((mm - ss) / Math.Sqrt(left * right), -1, 1);
    }

    /// <summary>The whole take and its worst 400 ms.</summary>
    public static CorrelationMeasures Measure(PairTrack track, PairSums total, double sideGain)
    {
        var whole = Of(new(total.First, total.Second, total.FirstSquared, total.SecondSquared, total.Product), sideGain);
        var (worst, at) = (double.NaN, -1);
        var gate = Gate(track, sideGain);
        for (var i = 0; i + WindowHops <= track.Hops.Count; i++)
        {
            var window = Window(track, i);
            var r = Of(window, sideGain);
            if (MeanSquare(track, window, i, sideGain) > gate && !(r >= worst) && !double.IsNaN(r))
                (worst, at) = (r, i);
        }

        return new(whole, worst, at < 0 ? null : RangeOf(track, at));
    }

    /// <summary>The four hops that begin at hop number <paramref name="first"/>.</summary>
    public static HopSums Window(PairTrack track, int first)
    {
        var sum = default(HopSums);
        for (var i = first; i < first + WindowHops; i++)
        {
            var hop = track.Hops[i];
            sum = new(sum.Mid + hop.Mid, sum.Side + hop.Side, sum.MidMid + hop.MidMid, sum.SideSide + hop.SideSide, sum.MidSide + hop.MidSide);
        }

        return sum;
    }

    private static double Gate(PairTrack track, double sideGain)
    {
        var loudest = 0.0;
        for (var i = 0; i + WindowHops <= track.Hops.Count; i++)
            loudest = Math.Max(loudest, MeanSquare(track, Window(track, i), i, sideGain));
        return Math.Max(QuietestMeanSquare, loudest * BelowLoudest);
    }

    /// <summary>Mean of the mean squares of left and right.</summary>
    private static double MeanSquare(PairTrack track, HopSums window, int first, double sideGain) =>
        (window.MidMid + (sideGain * sideGain * window.SideSide))
        / track.Grid.FramesIn((long)first * TenMillisecondGrid.HopSteps, WindowHops * TenMillisecondGrid.HopSteps);

    private static FrameRange RangeOf(PairTrack track, int first) => FrameRange.FromFrames(
        track.Grid.FrameOf((long)first * TenMillisecondGrid.HopSteps),
        track.Grid.FrameOf((long)(first + WindowHops) * TenMillisecondGrid.HopSteps));
}
