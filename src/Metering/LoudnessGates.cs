using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>From K-weighted energies per 10 ms to the figures of BS.1770, Tech 3341 and Tech 3342.</summary>
internal static class LoudnessGates
{
    internal const double Offset = -0.691;
    internal const double AbsoluteGate = -70;

    /// <summary>−0.691 + 10·lg z, where z is the sum over channels of the K-weighted mean squares; −∞ for 0.</summary>
    public static Loudness FromMeanSquare(double z) => z > 0 ? new(Offset + (10 * Math.Log10(z))) : Loudness.Silence;

    /// <summary>All figures.</summary>
    /// <param name="energies">Sum over channels of squared K-weighted samples, for each whole 10 ms.</param>
    /// <param name="grid">The grid the energies were taken on.</param>
    public static LoudnessMeasures Measure(ReadOnlySpan<double> energies, TenMillisecondGrid grid)
    {
        var hops = HopSums(energies);
        return new()
        {
            Integrated = Integrated(hops, grid),
            MaxMomentary = FromMeanSquare(Largest(energies, hops, TenMillisecondGrid.MomentarySteps, grid)),
            MaxShortTerm = FromMeanSquare(Largest(energies, hops, TenMillisecondGrid.ShortTermSteps, grid)),
            Range = Range(hops, grid),
        };
    }

    /// <summary>Gated loudness of 400 ms blocks that overlap by 75 %.</summary>
    /// <param name="hops">Energy of the 100 ms that begin at each step.</param>
    /// <param name="grid">The grid.</param>
    public static Loudness Integrated(ReadOnlySpan<double> hops, TenMillisecondGrid grid)
    {
        var blocks = Windows(hops, TenMillisecondGrid.MomentarySteps, grid);
        var absolute = MeanSquareOf(AbsoluteGate);
        var relative = Math.Max(absolute, 0.1 * MeanAbove(blocks, absolute));
        return FromMeanSquare(MeanAbove(blocks, relative));
    }

    /// <summary>Loudness range of EBU Tech 3342: percentiles 95 − 10 of the gated short-term loudness.</summary>
    public static Decibels Range(ReadOnlySpan<double> hops, TenMillisecondGrid grid)
    {
        var windows = Windows(hops, TenMillisecondGrid.ShortTermSteps, grid);
        var absolute = MeanSquareOf(AbsoluteGate);
        var kept = windows.FindAll(z => z >= absolute);
        if (kept.Count == 0)
            return default;
        var relative = 0.01 * kept.Average();
        kept = kept.FindAll(z => z >= relative);
        kept.Sort();
        return FromMeanSquare(Percentile(kept, 95)) - FromMeanSquare(Percentile(kept, 10));
    }

    /// <summary>For each step the energy of the 100 ms that begin there; empty below 100 ms.</summary>
    public static double[] HopSums(ReadOnlySpan<double> energies)
    {
        var hops = new double[Math.Max(0, energies.Length - TenMillisecondGrid.HopSteps + 1)];
        for (var i = 0; i < hops.Length; i++)
            hops[i] = Sum(energies.Slice(i, TenMillisecondGrid.HopSteps));
        return hops;
    }

    private static double Sum(ReadOnlySpan<double> values)
    {
        var sum = 0.0;
        foreach (var value in values)
            sum += value;
        return sum;
    }

    /// <summary>Mean squares of every window of so many steps, 100 ms apart.</summary>
    private static List<double> Windows(ReadOnlySpan<double> hops, int steps, TenMillisecondGrid grid)
    {
        var last = hops.Length - 1 + TenMillisecondGrid.HopSteps - steps;
        var windows = new List<double>(Math.Max(0, (last / TenMillisecondGrid.HopSteps) + 1));
        for (var i = 0; i <= last; i += TenMillisecondGrid.HopSteps)
            windows.Add(Window(hops, i, steps) / grid.FramesIn(i, steps));
        return windows;
    }

    private static double Window(ReadOnlySpan<double> hops, int first, int steps)
    {
        var sum = 0.0;
        for (var i = 0; i < steps; i += TenMillisecondGrid.HopSteps)
            sum += hops[first + i];
        return sum;
    }

    /// <summary>The largest mean square of any window on the 10 ms grid; a take shorter than the window is preceded by silence.</summary>
    private static double Largest(ReadOnlySpan<double> energies, ReadOnlySpan<double> hops, int steps, TenMillisecondGrid grid)
    {
        if (energies.Length < steps)
            return Sum(energies) / grid.FramesIn(0, steps);
        var largest = 0.0;
        for (var i = 0; i + steps <= energies.Length; i++)
            largest = Math.Max(largest, Window(hops, i, steps) / grid.FramesIn(i, steps));
        return largest;
    }

    private static double MeanSquareOf(double loudness) => Math.Pow(10, (loudness - Offset) / 10);

    private static double MeanAbove(List<double> blocks, double gate)
    {
        var (sum, count) = (0.0, 0);
        foreach (var z in blocks)
        {
            if (z > gate)
                (sum, count) = (sum + z, count + 1);
        }

        return count > 0 ? sum / count : 0;
    }

    private static double Percentile(List<double> sorted, double percent) =>
        sorted[(int)Math.Round((sorted.Count - 1) * percent / 100, MidpointRounding.AwayFromZero)];
}
