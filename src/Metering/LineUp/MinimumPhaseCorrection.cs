using Athwart.Signals.Fourier;

namespace Athwart.Metering.LineUp;

/// <summary>A minimum-phase filter that brings the side's response to the mid's.</summary>
/// <remarks>
/// The corrections of the third octaves are joined by straight lines over the logarithm of frequency, fall to 0 dB one third octave
/// beyond the last one known, and become a causal filter by folding the real cepstrum: the phase is the Hilbert transform of the log
/// magnitude (Oppenheim and Schafer, Discrete-Time Signal Processing, from memory).
/// </remarks>
public static class MinimumPhaseCorrection
{
    private const int Oversampling = 8;
    private const double LowestHertz = 10;

    /// <summary>The impulse response to convolve the side with.</summary>
    /// <param name="response">The bands of a line-up.</param>
    /// <param name="sampleRateHertz">Frames a second of what is corrected.</param>
    /// <param name="length">Taps, 16 to 65536.</param>
    /// <returns>The taps; a single 1 and noughts when nothing is to be corrected.</returns>
    public static double[] Design(IReadOnlyList<ResponseBand> response, int sampleRateHertz, int length)
    {
        ArgumentNullException.ThrowIfNull(response);
        ArgumentOutOfRangeException.ThrowIfLessThan(length, 16);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(length, 65536);
        var transform = new FourierTransform((int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)(Oversampling * length)));
        var (n, real, imaginary) = (transform.Length, new float[transform.Length], new float[transform.Length]);
        for (var k = 0; k <= n / 2; k++)
            real[k] = real[(n - k) % n] = (float)(Decibels(response, (double)k * sampleRateHertz / n) * Math.Log(10) / 20);
        transform.Inverse(real, imaginary);
        for (var i = 0; i < n; i++)
            (real[i], imaginary[i]) = (real[i] / n * (i == 0 || i == n / 2 ? 1 : i < n / 2 ? 2 : 0), 0);
        transform.Forward(real, imaginary);
        for (var k = 0; k < n; k++)
        {
            var (sin, cos) = Math.SinCos(imaginary[k]);
            var size = Math.Exp(real[k]);
            (real[k], imaginary[k]) = ((float)(size * cos), (float)(size * sin));
        }

        transform.Inverse(real, imaginary);
        return [.. real.Take(length).Select((x, i) => (double)x / n * Fade(i, length))];
    }

    /// <summary>The correction at a frequency in dB.</summary>
    /// <param name="response">The bands of a line-up.</param>
    /// <param name="hertz">Frequency in hertz, 0 or more.</param>
    public static double Decibels(IReadOnlyList<ResponseBand> response, double hertz)
    {
        ArgumentNullException.ThrowIfNull(response);
        var place = 10 * Math.Log10(Math.Max(hertz, LowestHertz) / 1000);
        var below = (int)Math.Floor(place);
        var share = place - below;
        return ((1 - share) * Of(response, below)) + (share * Of(response, below + 1));
    }

    private static double Of(IReadOnlyList<ResponseBand> response, int band)
    {
        var nominal = ThirdOctave.NominalHertz(band);
        return response.FirstOrDefault(b => Math.Abs(b.NominalHertz - nominal) < 0.01 * nominal)?.CorrectionDecibels ?? 0;
    }

    // The last eighth fades out, so that cutting the response leaves no step.
    private static double Fade(int i, int length)
    {
        var place = ((double)i / length * 8) - 7;
        return place <= 0 ? 1 : 0.5 + (0.5 * Math.Cos(Math.PI * place));
    }
}
