namespace Athwart.Microphones.Width;

/// <summary>How the correlation of left and right hangs on the side gain.</summary>
/// <remarks>
/// With left = mid + g·side, right = mid − g·side, u = g·√(PS/PM), c the correlation of mid and side, and x = 1/u − u:
/// r = (PM − g²·PS)/√((PM + g²·PS)² − 4·g²·PMS²) = x/√(x² + 4·(1 − c²)). It falls as g grows, and is 0 where mid and side are
/// equally strong, whatever c. Source: derived from the matrix.
/// </remarks>
internal static class CorrelationLaw
{
    /// <summary>r at a side gain; null when both are silent, or left or right is.</summary>
    public static double? Correlation(double midPower, double sidePower, double crossPower, double sideGain)
    {
        var side = sideGain * sideGain * sidePower;
        var product = ((midPower + side) * (midPower + side)) - (4 * sideGain * sideGain * crossPower * crossPower);
        return product > 0 ? Math.Clamp((midPower - side) / Math.Sqrt(product), -1, 1) : null;
    }

    /// <summary>The side gain at which r comes down to a wanted value: +∞ without a side, 0 without a mid.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The correlation does not lie between −1 and 1.</exception>
    public static double SideGain(double midPower, double sidePower, double crossPower, double correlation)
    {
        if (!(correlation is > -1 and < 1))
            throw new ArgumentOutOfRangeException(nameof(correlation), correlation, "a correlation to reach lies above −1 and below 1; for mono take the side away");
        if (sidePower <= 0)
            return double.PositiveInfinity;
        var alike = midPower > 0 ? Math.Min(1, crossPower * crossPower / (midPower * sidePower)) : 0;
        var x = 2 * correlation * Math.Sqrt((1 - alike) / (1 - (correlation * correlation)));
        // The larger root first, or its reciprocal: the difference of near numbers would lose digits.
        var sum = Math.Abs(x) + Math.Sqrt((x * x) + 4);
        return (x > 0 ? 2 / sum : sum / 2) * Math.Sqrt(midPower / sidePower);
    }
}
