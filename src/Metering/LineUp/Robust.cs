namespace Athwart.Metering.LineUp;

/// <summary>Statistics that one bad sound in four does not spoil.</summary>
internal static class Robust
{
    /// <summary>The standard deviation of a normal distribution over its median absolute deviation.</summary>
    private const double DeviationOverMedianDeviation = 1.4826;

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

    /// <summary>The median and the standard deviation of that median, not below what noise alone makes of it.</summary>
    /// <param name="values">One value a sound.</param>
    /// <param name="theory">The standard deviation of one value by the noise alone.</param>
    public static (double Value, double Deviation) Centre(IReadOnlyList<double> values, double theory)
    {
        // A median of normal values is √(π/2) less sure than their mean, from three on.
        var loss = values.Count > 2 ? Math.Sqrt(Math.PI / 2) : 1;
        return (Median(values), loss * Math.Max(theory, Deviation(values)) / Math.Sqrt(Math.Max(1, values.Count)));
    }
}
