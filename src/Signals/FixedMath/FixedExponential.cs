namespace Athwart.Signals.FixedMath;

/// <summary>Exponential and logarithm from + − × ÷ alone, so that every machine computes the same bits.</summary>
/// <remarks>Errors stay below 4e-16 of the value (of 1 for logarithms near 0), which the tests check against the platform.</remarks>
public static class FixedExponential
{
    // ln 2 in two parts: the first has 32 spare bits, so that a whole multiple of it is exact.
    private const double LogOfTwoHigh = 6.93147180369123816490e-01;
    private const double LogOfTwoLow = 1.90821492927058770002e-10;
    private const double LogOfTen = 2.302585092994045684;

    /// <summary>e^x: 0 below −745, +∞ above 709.8; NaN gives NaN.</summary>
    public static double Exp(double x)
    {
        if (!(Math.Abs(x) < 746))
            return double.IsNaN(x) ? x : x > 0 ? double.PositiveInfinity : 0;
        var doublings = Math.Round(x / (LogOfTwoHigh + LogOfTwoLow));
        var (high, low) = (x - (doublings * LogOfTwoHigh), doublings * LogOfTwoLow);
        var rest = high - low; // |rest| ≤ 0.347
        var sum = 1.0;
        for (var n = 15; n >= 2; n--)
            sum = 1 + (rest / n * sum);
        // 1 + rest·sum, with what the subtraction rounded away put back.
        return Math.ScaleB(1 + ((high - rest - low) + (rest * sum)), (int)doublings);
    }

    /// <summary>The natural logarithm: −∞ at 0, NaN below 0, +∞ at +∞.</summary>
    public static double Log(double x)
    {
        if (!(x > 0) || double.IsInfinity(x))
            return x == 0 ? double.NegativeInfinity : x > 0 ? x : double.NaN;
        var doublings = Math.ILogB(x);
        var mantissa = Math.ScaleB(x, -doublings); // 1 ≤ mantissa < 2
        if (mantissa > 1.4142135623730951)
            (mantissa, doublings) = (mantissa / 2, doublings + 1);
        var f = mantissa - 1; // exact
        var s = f / (2 + f);  // ln mantissa = 2·artanh s, |s| ≤ 0.172
        var square = s * s;
        var sum = 0.0;
        for (var n = 21; n >= 3; n -= 2)
            sum = square * ((2.0 / n) + sum);
        // ln(1 + f) = f − s·(f − sum): f itself is exact and takes the largest share.
        return (doublings * LogOfTwoHigh) + (f - ((s * (f - sum)) - (doublings * LogOfTwoLow)));
    }

    /// <summary>10^(decibels/20), quick and to 1e-15: for filter designs; <see cref="FixedGain"/> is for gains that are written down.</summary>
    public static double AmplitudeRatio(double decibels) => Exp(decibels * (LogOfTen / 20));

    /// <summary>20·log10(ratio) in decibels; −∞ at 0.</summary>
    public static double Decibels(double amplitudeRatio) => Log(amplitudeRatio) * (20 / LogOfTen);
}
