namespace Athwart.Metering.LineUp;

/// <summary>Statistics that one bad sound in four does not spoil.</summary>
internal static class Robust
{
    /// <summary>The standard deviation of a normal distribution over its median absolute deviation.</summary>
    private const double DeviationOverMedianDeviation = 1.4826;

    /// <summary>Further from the median than this many deviations a value does not count.</summary>
    private const double OutlierDeviations = 3;

    /// <summary>The middle value; NaN of nothing.</summary>
    public static double Median(IEnumerable<double> values)
    {
        var sorted = values.Where(double.IsFinite).Order().ToArray();
        return sorted.Length == 0 ? double.NaN : (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }

    /// <summary>The standard deviation judged by the median absolute deviation; 0 of fewer than two.</summary>
    public static double Deviation(IReadOnlyList<double> values)
    {
        if (values.Count < 2)
            return 0;
        var centre = Median(values);
        // Of two, the distance to the middle is half their difference, whose deviation is √2 σ.
        return values.Count == 2
            ? Math.Abs(values[0] - values[1]) / Math.Sqrt(2)
            : DeviationOverMedianDeviation * Median(values.Select(v => Math.Abs(v - centre)));
    }

    /// <summary>The mean of the values near the median, and its standard deviation, not below what noise alone makes of it.</summary>
    /// <param name="values">One value a sound.</param>
    /// <param name="theory">The standard deviation of one value by the noise alone.</param>
    public static (double Value, double Deviation) Centre(IReadOnlyList<double> values, double theory)
    {
        var (median, deviation) = (Median(values), Math.Max(theory, Deviation(values)));
        var near = values.Where(v => Math.Abs(v - median) <= OutlierDeviations * deviation).ToList();
        return (near.Count > 0 ? near.Average() : median, deviation / Math.Sqrt(Math.Max(1, near.Count)));
    }
}
