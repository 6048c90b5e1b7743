using Athwart.Signals.Filters;

namespace Athwart.Scenes.Numbers;

/// <summary>Sections by the bilinear transform, prewarped at the stated frequency.</summary>
internal static class FilterDesigns
{
    private const double ButterworthQuality = 0.70710678118654752;

    /// <summary>First-order low pass, −3.01 dB at the corner.</summary>
    public static BiquadCoefficients Low1(double hertz, double rate)
    {
        var k = Warped(hertz, rate);
        return new(k / (1 + k), k / (1 + k), 0, (k - 1) / (1 + k), 0);
    }

    /// <summary>First-order high pass, −3.01 dB at the corner.</summary>
    public static BiquadCoefficients High1(double hertz, double rate)
    {
        var k = Warped(hertz, rate);
        return new(1 / (1 + k), -1 / (1 + k), 0, (k - 1) / (1 + k), 0);
    }

    /// <summary>One zero and one pole, gain 1 at 0 Hz: (1 + s/ωz)/(1 + s/ωp).</summary>
    public static BiquadCoefficients Step(double zeroHertz, double poleHertz, double rate)
    {
        var (z, p) = (1 / Warped(zeroHertz, rate), 1 / Warped(poleHertz, rate));
        return new((1 + z) / (1 + p), (1 - z) / (1 + p), 0, (1 - p) / (1 + p), 0);
    }

    /// <summary>Second-order low pass; Butterworth unless another quality is given.</summary>
    public static BiquadCoefficients Low2(double hertz, double rate, double quality = ButterworthQuality)
    {
        var (k, n) = Second(hertz, rate, quality);
        return new(k * k / n, 2 * k * k / n, k * k / n, 2 * ((k * k) - 1) / n, (1 - (k / quality) + (k * k)) / n);
    }

    /// <summary>Second-order high pass; Butterworth unless another quality is given.</summary>
    public static BiquadCoefficients High2(double hertz, double rate, double quality = ButterworthQuality)
    {
        var (k, n) = Second(hertz, rate, quality);
        return new(1 / n, -2 / n, 1 / n, 2 * ((k * k) - 1) / n, (1 - (k / quality) + (k * k)) / n);
    }

    /// <summary>Resonance with gain 1 at its centre.</summary>
    public static BiquadCoefficients Band(double hertz, double rate, double quality)
    {
        var (k, n) = Second(hertz, rate, quality);
        return new(k / quality / n, 0, -k / quality / n, 2 * ((k * k) - 1) / n, (1 - (k / quality) + (k * k)) / n);
    }

    /// <summary>A Butterworth high pass of order 1 to 4.</summary>
    public static BiquadCoefficients[] High(double hertz, double rate, int order) => order switch
    {
        1 => [High1(hertz, rate)],
        2 => [High2(hertz, rate)],
        3 => [High1(hertz, rate), High2(hertz, rate, 1)],
        4 => [High2(hertz, rate, 0.54119610014619698), High2(hertz, rate, 1.3065629648763766)],
        _ => throw new ArgumentOutOfRangeException(nameof(order), order, "the order lies between 1 and 4"),
    };

    /// <summary>A Butterworth low pass of order 4.</summary>
    public static BiquadCoefficients[] Low4(double hertz, double rate) =>
        [Low2(hertz, rate, 0.54119610014619698), Low2(hertz, rate, 1.3065629648763766)];

    private static double Warped(double hertz, double rate) => Math.Tan(Math.PI * Math.Min(hertz, 0.499 * rate) / rate);

    private static (double K, double N) Second(double hertz, double rate, double quality)
    {
        var k = Warped(hertz, rate);
        return (k, 1 + (k / quality) + (k * k));
    }
}
