using Athwart.Metering.LineUp;

namespace Athwart.Metering.Faults;

/// <summary>What <see cref="PairModel"/> weighs.</summary>
/// <param name="Straight">For first channel mid, second side.</param>
/// <param name="Swapped">The same numbers for first channel side, second mid.</param>
/// <param name="Decoded">For left and right.</param>
internal sealed record PairNumbers(double[] Straight, double[] Swapped, double[] Decoded)
{
    private const int FewestCells = 40, FewestLowFrames = 8;

    /// <summary>The numbers of a take; null when there is too little to judge by.</summary>
    public static PairNumbers? Of(TakeMeasures m, FaultMeasures f)
    {
        if (f.Cross is not { Groups: > 0 } cross || cross.Cells.Count < FewestCells || f.Low.Count < FewestLowFrames)
            return null;
        var (cells, axes, bands) = (cross.Cells, cross.Cells.Axes(), PairBands.Of(cross, m.SampleRateHertz));
        var low = Robust.Median(f.Low.Select(x => 10 * Math.Log10((x.SideLow + 1e-14) / (x.MidLow + 1e-14))));
        var (least, middle, most) = (cells.Level(0.05), cells.Level(0.5), cells.Level(0.95));
        return new(
            Side(axes.FromFirst, bands, low, least, middle, most, 1),
            Side(axes.FromSecond, bands, low, -most, -middle, -least, -1),
            [
                1, .. axes.FromMiddle.Select(Math.Sqrt), axes.Mixed,
                Near(bands.QuietApart, 0.3), Near(bands.QuietApart, 1), Near(bands.QuietApart, 3), Near(low, 0.7), Near(low, 2.5), LowAgreement(f.Low),
                Near(bands.Apart, 1), Near(bands.Apart, 3), bands.Agreement, bands.Likeness, bands.Opposition, (most - least) / 20,
            ]);
    }

    /// <summary>Numbers for one of the channels being the side; how far it lies above the other in tens of decibels, bounded.</summary>
    private static double[] Side(double[] fromOther, PairBands bands, double low, double least, double middle, double most, int sign) =>
    [
        .. fromOther.Select(Math.Sqrt),
        Bounded(sign * bands.QuietLevel, 10), Bounded(sign * low, 15), Bounded(sign * bands.Level, 15),
        // For sound from the front the side vanishes: the lowest twentieth lies far down; the mid never does so where the side is loud.
        Bounded(least, 30), Bounded(middle, 15), Bounded(most, 30),
    ];

    private static double Bounded(double decibels, double most) => Math.Clamp(decibels, -most, most) / 10;

    private static double Near(double decibels, double scale) => Math.Exp(-Math.Abs(decibels) / scale);

    private static double LowAgreement(IReadOnlyList<LowFrame> low) => low.Average(x => x.CrossRe / Math.Sqrt(((double)x.MidLow * x.SideLow) + 1e-30));
}
