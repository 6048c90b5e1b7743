using System.Globalization;

namespace Athwart.Signals.FixedMath;

/// <summary>Amplitude ratios for gains in decibels, the same bits on every machine.</summary>
/// <remarks>
/// <see cref="Math.Pow"/> may differ in the last bit between systems; a recipe must not. The arithmetic is decimal, which is
/// defined to the digit.
/// </remarks>
public static class FixedGain
{
    private const decimal NaturalLogOfTen = 2.3025850929940456840179914547m;

    /// <summary>10^(decibels/20): 1 for 0 dB, exactly 10 for 20 dB, 0 for −∞ dB; the nearest double otherwise.</summary>
    /// <param name="decibels">The gain in decibels, −∞ or −1000 to +1000.</param>
    /// <exception cref="ArgumentOutOfRangeException">The gain is not a number or beyond ±1000 dB.</exception>
    public static double AmplitudeRatio(double decibels)
    {
        if (double.IsNegativeInfinity(decibels))
            return 0;
        if (!(Math.Abs(decibels) <= 1000))
            throw new ArgumentOutOfRangeException(nameof(decibels), decibels, "A gain lies within ±1000 dB, or is −∞ dB.");
        var exponent = Exact(decibels) / 20;
        var decades = Math.Round(exponent);
        // Reading a number from text rounds correctly, which the conversion from decimal does not.
        return double.Parse(string.Create(CultureInfo.InvariantCulture, $"{Exponential((exponent - decades) * NaturalLogOfTen)}E{decades}"), CultureInfo.InvariantCulture);
    }

    // The conversion to decimal keeps 15 digits; a second one brings the rest.
    private static decimal Exact(double value)
    {
        var head = (decimal)value;
        return head + (decimal)(value - (double)head);
    }

    // e^x for |x| ≤ 1.16 to 27 digits.
    private static decimal Exponential(decimal x)
    {
        decimal sum = 1, term = 1;
        for (var n = 1; n <= 32; n++)
        {
            term = term * x / n;
            sum += term;
        }

        return sum;
    }
}
