using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Filters;

/// <summary>
/// A continuous-time filter of first or second order, H(s) = (B2·s² + B1·s + B0) / (A2·s² + A1·s + A0) with s = j·f/f₀: what the
/// digital filters here are held against.
/// </summary>
/// <param name="FrequencyHertz">f₀, the centre or corner, in hertz; above 0.</param>
/// <param name="B2">Weight of s² above.</param>
/// <param name="B1">Weight of s above.</param>
/// <param name="B0">The constant above.</param>
/// <param name="A2">Weight of s² below.</param>
/// <param name="A1">Weight of s below.</param>
/// <param name="A0">The constant below.</param>
/// <remarks>Bell and shelf prototypes: R. Bristow-Johnson's audio equaliser formulas, from memory; see docs/sources.md#prototypes.</remarks>
public readonly record struct AnalogueSection(double FrequencyHertz, double B2, double B1, double B0, double A2, double A1, double A0)
{
    /// <summary>A bell: the gain at the centre, 0 dB far from it; boost and cut of one size are each other's mirror image.</summary>
    /// <param name="centreHertz">Centre in hertz.</param>
    /// <param name="gainDecibels">Gain at the centre in dB.</param>
    /// <param name="q">Centre over the distance between the two places where the gain in dB is half of what it is at the centre.</param>
    public static AnalogueSection Bell(double centreHertz, double gainDecibels, double q)
    {
        var a = FixedExponential.AmplitudeRatio(gainDecibels / 2);
        return new(centreHertz, 1, a / q, 1, 1, 1 / (a * q), 1);
    }

    /// <summary>A shelf: the gain far below the corner, half of it in dB at the corner, 0 dB far above.</summary>
    /// <param name="cornerHertz">Corner in hertz.</param>
    /// <param name="gainDecibels">Gain of the shelf in dB.</param>
    /// <param name="q">√½ is as steep as goes without overshoot, more overshoots on both sides, less is gentler.</param>
    public static AnalogueSection LowShelf(double cornerHertz, double gainDecibels, double q)
    {
        var a = FixedExponential.AmplitudeRatio(gainDecibels / 2);
        var damping = Math.Sqrt(a) / q;
        return new(cornerHertz, a, a * damping, a * a, a, damping, 1);
    }

    /// <summary>A shelf: the gain far above the corner, half of it in dB at the corner, 0 dB far below; see <see cref="LowShelf"/>.</summary>
    public static AnalogueSection HighShelf(double cornerHertz, double gainDecibels, double q)
    {
        var a = FixedExponential.AmplitudeRatio(gainDecibels / 2);
        var damping = Math.Sqrt(a) / q;
        return new(cornerHertz, a * a, a * damping, a, 1, damping, a);
    }

    /// <summary>The amplitude ratio |H| at a frequency of 0 or more, in hertz.</summary>
    public double AmplitudeRatioAt(double frequencyHertz) => Math.Sqrt(PowerRatioAt(frequencyHertz / FrequencyHertz));

    /// <summary>The sections of a Butterworth low cut (high-pass) of any order, −3 dB at the corner, 6 dB an octave for each order.</summary>
    public static IReadOnlyList<AnalogueSection> ButterworthLowCut(double cornerHertz, int order) =>
        [.. Dampings(order).Select(d => d is { } damping ? new AnalogueSection(cornerHertz, 1, 0, 0, 1, damping, 1) : new(cornerHertz, 0, 1, 0, 0, 1, 1))];

    /// <summary>The sections of a Butterworth high cut (low-pass); see <see cref="ButterworthLowCut"/>.</summary>
    public static IReadOnlyList<AnalogueSection> ButterworthHighCut(double cornerHertz, int order) =>
        [.. Dampings(order).Select(d => d is { } damping ? new AnalogueSection(cornerHertz, 0, 0, 1, 1, damping, 1) : new(cornerHertz, 0, 0, 1, 0, 1, 1))];

    /// <summary>|H|² at f/f₀.</summary>
    internal double PowerRatioAt(double place)
    {
        var square = place * place;
        var (above, below) = (B0 - (B2 * square), A0 - (A2 * square));
        return ((above * above) + (B1 * B1 * square)) / ((below * below) + (A1 * A1 * square));
    }

    // Pairs of poles s² + 2·sin(π(2k−1)/2n)·s + 1, and s + 1 (null) where the order is odd.
    private static IEnumerable<double?> Dampings(int order)
    {
        for (var k = 1; k <= order / 2; k++)
            yield return 2 * FixedTrigonometry.SinPi(((2 * k) - 1) / (2.0 * order));
        if (order % 2 == 1)
            yield return null;
    }
}
