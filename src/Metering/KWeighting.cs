using Athwart.Signals.Filters;

namespace Athwart.Metering;

/// <summary>The K-weighting of ITU-R BS.1770-5 for any sample rate: a high shelf and a high-pass in series.</summary>
/// <remarks>
/// Source: ITU-R BS.1770-5 Annex 1, Tables 1 and 2 give the coefficients at 48 kHz; other rates keep the same response by
/// deriving both sections from their analogue prototypes (bilinear, K = tan(π·f0/fs)). The prototype constants are those of
/// docs/sources.md#k-weighting; at 48 kHz they reproduce every printed digit.
/// </remarks>
public static class KWeighting
{
    /// <summary>The lowest and highest sample rate the derivation is used for, in hertz.</summary>
    public const int LowestSampleRateHertz = 8_000, HighestSampleRateHertz = 768_000;

    internal const double ShelfHertz = 1681.974450955533;
    internal const double ShelfDecibels = 3.999843853973347;
    internal const double ShelfQ = 0.7071752369554196;
    internal const double ShelfBandExponent = 0.4996667741545416;
    internal const double HighPassHertz = 38.13547087602444;
    internal const double HighPassQ = 0.5003270373238773;

    /// <summary>Stage 1, the shelf that stands for the head.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The rate lies outside 8 to 768 kHz.</exception>
    public static BiquadCoefficients Shelf(int sampleRateHertz)
    {
        Check(sampleRateHertz);
        var k = Math.Tan(Math.PI * ShelfHertz / sampleRateHertz);
        var vh = Math.Pow(10, ShelfDecibels / 20);
        var vb = Math.Pow(vh, ShelfBandExponent);
        var a0 = 1 + (k / ShelfQ) + (k * k);
        return new(
            (vh + (vb * k / ShelfQ) + (k * k)) / a0,
            2 * ((k * k) - vh) / a0,
            (vh - (vb * k / ShelfQ) + (k * k)) / a0,
            2 * ((k * k) - 1) / a0,
            (1 - (k / ShelfQ) + (k * k)) / a0);
    }

    /// <summary>Stage 2, the high-pass; its numerator is 1, −2, 1 at 48 kHz, as printed.</summary>
    /// <remarks>
    /// The printed numerator is not normalised, which lifts everything by 0.043 dB at 48 kHz. Left at 1, −2, 1 elsewhere the lift
    /// would change with the rate (a 997 Hz tone would read −3.037 at 192 kHz and not −3.01), but BS.1770 asks for the same response
    /// at every rate; so the numerator is scaled to keep the lift of 48 kHz.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The rate lies outside 8 to 768 kHz.</exception>
    public static BiquadCoefficients HighPass(int sampleRateHertz)
    {
        Check(sampleRateHertz);
        var k = Math.Tan(Math.PI * HighPassHertz / sampleRateHertz);
        var a0 = HighPassA0(k);
        var lift = sampleRateHertz == 48_000 ? 1 : HighPassA0(Math.Tan(Math.PI * HighPassHertz / 48_000)) / a0;
        return new(lift, -2 * lift, lift, 2 * ((k * k) - 1) / a0, (1 - (k / HighPassQ) + (k * k)) / a0);
    }

    private static double HighPassA0(double k) => 1 + (k / HighPassQ) + (k * k);

    private static void Check(int sampleRateHertz)
    {
        if (sampleRateHertz is < LowestSampleRateHertz or > HighestSampleRateHertz)
            throw new ArgumentOutOfRangeException(nameof(sampleRateHertz), sampleRateHertz, "K-weighting is derived for 8 000 to 768 000 Hz.");
    }
}
