namespace Athwart.Metering.Faults;

/// <summary>How likely a pair is mid and side, side and mid, or left and right, by a logistic model of what physics tells them apart by.</summary>
/// <remarks>
/// What counts for mid and side counts, with the channels exchanged, for side and mid; what counts for left and right does not depend on
/// their order. The side of a figure-8 vanishes for sound from the front and has either sign; left and right have equal noise and equal
/// low end, and hardly ever opposite signs. Coefficients: docs/accuracy.md says how they are fitted again.
/// </remarks>
internal static class PairModel
{
    /// <summary>How many numbers speak for mid and side.</summary>
    public const int Signed = 7;

    /// <summary>How many numbers speak for left and right.</summary>
    public const int Symmetric = 9;

    /// <summary>Of the numbers for mid and side, then of those for left and right.</summary>
    public static IReadOnlyList<double> Coefficients { get; } = new double[Signed + Symmetric];

    /// <summary>The probabilities of mid and side, side and mid, left and right when each is as likely before looking.</summary>
    public static (double Straight, double Swapped, double Decoded) Of(PairNumbers x) => Of(x, Coefficients);

    /// <summary>The same by other coefficients.</summary>
    public static (double Straight, double Swapped, double Decoded) Of(PairNumbers x, IReadOnlyList<double> w)
    {
        var (straight, swapped, decoded) = (0.0, 0.0, 0.0);
        for (var i = 0; i < Signed; i++)
        {
            straight += w[i] * x.Straight[i];
            swapped += w[i] * x.Swapped[i];
        }

        for (var i = 0; i < Symmetric; i++)
            decoded += w[Signed + i] * x.Decoded[i];
        var most = Math.Max(straight, Math.Max(swapped, decoded));
        var (a, b, c) = (Math.Exp(straight - most), Math.Exp(swapped - most), Math.Exp(decoded - most));
        return (a / (a + b + c), b / (a + b + c), c / (a + b + c));
    }
}

/// <summary>What the model weighs.</summary>
/// <param name="Straight">For first channel mid, second side.</param>
/// <param name="Swapped">For first channel side, second mid.</param>
/// <param name="Decoded">For left and right.</param>
internal sealed record PairNumbers(double[] Straight, double[] Swapped, double[] Decoded)
{
    private static readonly double[] Shares = [0.1, 0.5, 0.9];

    /// <summary>The numbers of a take; null when there is too little to judge by.</summary>
    public static PairNumbers? Of(TakeMeasures m, FaultMeasures f)
    {
        if (f.Cross is not { Groups: > 0 } cross || cross.Cells.Count < 40 || f.Low.Count < 8)
            return null;
        var cells = cross.Cells;
        double[] spread = [.. Shares.Select(s => cells.Level(s))];
        var mixed = cells.Level(0.5, 0, 0.5);
        var quiet = QuietDifference(cross, m.SampleRateHertz);
        var low = LowDifference(f.Low);
        double[] levels = [spread[1], mixed, low];
        return new(
            Side(levels, spread[0], spread[2], quiet.Signed),
            Side([.. levels.Select(x => -x)], -spread[2], -spread[0], -quiet.Signed),
            [1, cells.Agreement, cells.Opposed, cells.Dominance, Math.Exp(-Math.Abs(mixed) / 1.5), Math.Exp(-quiet.Apart / 1.0), (spread[2] - spread[0]) / 20, Math.Exp(-Math.Abs(low) / 2), LowAgreement(f.Low)]);
    }

    /// <summary>Numbers for the second channel being the side: how far it lies below the first, in tens of decibels, bounded.</summary>
    private static double[] Side(double[] levels, double least, double most, double quiet) =>
    [
        Bounded(levels[0], 15) / 10, Bounded(levels[1], 15) / 10, Bounded(levels[2], 15) / 10,
        // For sound from the front the side vanishes: the lower tenth lies far down; the mid never does so where the side is loud.
        Bounded(least, 30) / 10, Bounded(most, 30) / 10, Bounded(most + least - (2 * levels[0]), 20) / 10, Bounded(quiet, 10) / 10,
    ];

    private static double Bounded(double x, double most) => Math.Clamp(x, -most, most);

    /// <summary>How the quietest of both differ, third octave by third octave above 200 Hz: the median, and the median magnitude, in decibels.</summary>
    private static (double Signed, double Apart) QuietDifference(PairCross cross, int rate)
    {
        var width = rate / (double)PairCross.Length;
        var all = new List<double>();
        for (var hertz = 200.0; hertz < Math.Min(16_000, 0.42 * rate); hertz *= Math.Pow(2, 1 / 3.0))
        {
            var (a, b) = (1e-18, 1e-18);
            for (var k = (int)(hertz / 1.12 / width) + 1; k <= (int)(hertz * 1.12 / width); k++)
                (a, b) = (a + cross.QuietMid[k], b + cross.QuietSide[k]);
            if (a > 1e-15 && b > 1e-15)
                all.Add(10 * Math.Log10(b / a));
        }

        return all.Count == 0 ? (0, 5) : (Median(all), Median([.. all.Select(Math.Abs)]));
    }

    private static double Median(List<double> x)
    {
        x.Sort();
        return x[x.Count / 2];
    }

    private static double LowDifference(IReadOnlyList<LowFrame> low) => Median([.. low.Select(x => 10 * Math.Log10((x.SideLow + 1e-14) / (x.MidLow + 1e-14)))]);

    private static double LowAgreement(IReadOnlyList<LowFrame> low) => low.Average(x => x.CrossRe / Math.Sqrt(((double)x.MidLow * x.SideLow) + 1e-30));
}
