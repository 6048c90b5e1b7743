namespace Athwart.Jobs.Demo;

/// <summary>The few functions the synthesis needs, from + − × ÷ and comparisons alone.</summary>
/// <remarks>
/// The platform's own sine and exponential may differ in the last bit between machines, and a filter that feeds back would
/// carry that into the written word. These series do not: IEEE 754 arithmetic and a fixed order give the same bits everywhere.
/// </remarks>
internal static class DemoMath
{
    private const double TwoPi = 6.283185307179586;
    private const double Log2E = 1.4426950408889634;
    private const double Ln2High = 0.693147180369123816490;
    private const double Ln2Low = 1.90821492927058770002e-10;

    /// <summary>Sine of an angle in turns (1 turn = 360 degrees); error below 1e-11.</summary>
    public static double Sine(double turns)
    {
        var t = turns - Math.Floor(turns + 0.5);
        if (t > 0.25)
            t = 0.5 - t;
        else if (t < -0.25)
            t = -0.5 - t;
        var x = t * TwoPi;
        var s = x * x;
        return x * (1 + (s * (-1.0 / 6 + (s * (1.0 / 120 + (s * (-1.0 / 5040 + (s * (1.0 / 362880
            + (s * (-1.0 / 39916800 + (s * (1.0 / 6227020800 + (s * (-1.0 / 1307674368000)))))))))))))));
    }

    /// <summary>Cosine of an angle in turns.</summary>
    public static double Cosine(double turns) => Sine(turns + 0.25);

    /// <summary>e to the power x, for x from −700 to 700; relative error below 1e-13.</summary>
    public static double Exponential(double x)
    {
        var k = Math.Floor((x * Log2E) + 0.5);
        var r = x - (k * Ln2High) - (k * Ln2Low);
        var sum = 1.0;
        for (var n = 13; n >= 1; n--)
            sum = 1 + (r / n * sum);
        return sum * BitConverter.Int64BitsToDouble(((long)k + 1023) << 52);
    }

    /// <summary>An amplitude ratio from decibels.</summary>
    public static double Gain(double decibels) => Exponential(decibels * 0.11512925464970229);

    /// <summary>The factor a first-order decay loses each frame, for a time constant in seconds.</summary>
    public static double Decay(double seconds, int rate) => Exponential(-1 / (seconds * rate));

    /// <summary>A smooth step from 0 at <paramref name="from"/> to 1 at <paramref name="to"/>.</summary>
    public static double Rise(double x, double from, double to)
    {
        var t = Math.Clamp((x - from) / (to - from), 0, 1);
        return t * t * (3 - (2 * t));
    }

    /// <summary>A smooth hump: 0 outside, 1 in the middle.</summary>
    public static double Hump(double x, double from, double to)
    {
        var t = (x - from) / (to - from);
        if (t <= 0 || t >= 1)
            return 0;
        var h = 4 * t * (1 - t);
        return h * h;
    }
}
