namespace Athwart.Signals.FixedMath;

/// <summary>Sine, cosine, tangent, arc tangent and cardinal sine from + − × ÷ √ alone, so that every machine computes the same bits.</summary>
/// <remarks>
/// The platform's <see cref="Math.Sin"/> may differ in the last bit from one system to the next, and coefficients of the audio path must not.
/// Errors stay below 4e-16 of full scale, which the tests check against the platform.
/// </remarks>
public static class FixedTrigonometry
{
    /// <summary>sin(πx) for any finite x below 2^52 in magnitude; whole numbers give exactly 0. NaN and infinities give NaN.</summary>
    public static double SinPi(double x)
    {
        var size = Math.Abs(x);
        var turned = size - (2 * Math.Floor(size / 2)); // exact: 0 ≤ turned < 2
        var sign = turned >= 1 != x < 0 ? -1.0 : 1.0;
        var half = turned >= 1 ? turned - 1 : turned;  // 0 ≤ half < 1, sin(πx) = sign·sin(π·half)
        var quarter = half > 0.5 ? 1 - half : half;    // sin is symmetric about one half
        return sign * (quarter > 0.25 ? CosineSeries(Math.PI * (0.5 - quarter)) : SineSeries(Math.PI * quarter));
    }

    /// <summary>cos(πx) for any finite x below 2^52 in magnitude; odd halves give exactly 0. NaN and infinities give NaN.</summary>
    public static double CosPi(double x)
    {
        var size = Math.Abs(x);
        var turned = size - (2 * Math.Floor(size / 2)); // exact: 0 ≤ turned < 2
        var half = turned > 1 ? 2 - turned : turned;    // cos is even about one: 0 ≤ half ≤ 1
        var quarter = half > 0.5 ? 1 - half : half;
        var value = quarter > 0.25 ? SineSeries(Math.PI * (0.5 - quarter)) : CosineSeries(Math.PI * quarter);
        return half > 0.5 ? -value : value;
    }

    /// <summary>tan(πx) for 0 ≤ x &lt; ½, to 1e-15 of its value; other x by periodicity, ±∞ at odd halves.</summary>
    public static double TanPi(double x) => SinPi(x) / CosPi(x);

    /// <summary>sin x for an angle in radians; the error grows with the angle as 1e-16·(1 + |x|).</summary>
    public static double Sin(double radians) => SinPi(radians / Math.PI);

    /// <summary>cos x for an angle in radians; the error grows with the angle as 1e-16·(1 + |x|).</summary>
    public static double Cos(double radians) => CosPi(radians / Math.PI);

    /// <summary>arctan x in radians, −π/2 to π/2, to 4e-16; NaN gives NaN.</summary>
    /// <remarks>The angle is halved twice by x / (1 + √(1 + x²)), then summed as x − x³/3 + x⁵/5 − ….</remarks>
    public static double Atan(double x)
    {
        if (Math.Abs(x) > 1)
            return Math.CopySign(Math.PI / 2, x) - Atan(1 / x);
        var half = x / (1 + Math.Sqrt(1 + (x * x)));
        var quarter = half / (1 + Math.Sqrt(1 + (half * half))); // below tan(π/16) = 0.199
        var square = quarter * quarter;
        var sum = 0.0;
        for (var n = 25; n >= 3; n -= 2)
            sum = square * ((1.0 / n) - sum);
        return 4 * (quarter - (quarter * sum));
    }

    /// <summary>The cardinal sine sin(πx)/(πx); 1 at x = 0 and 0 at every other whole number.</summary>
    public static double Sinc(double x) => x == 0 ? 1 : SinPi(x) / (Math.PI * x);

    // Taylor series for 0 ≤ a ≤ π/4; the first term left out is below 1e-19.
    private static double SineSeries(double a)
    {
        var square = a * a;
        var sum = 1.0;
        for (var n = 17; n >= 3; n -= 2)
            sum = 1 - (square / (n * (n - 1)) * sum);
        return a * sum;
    }

    private static double CosineSeries(double a)
    {
        var square = a * a;
        var sum = 1.0;
        for (var n = 18; n >= 2; n -= 2)
            sum = 1 - (square / (n * (n - 1)) * sum);
        return sum;
    }
}
