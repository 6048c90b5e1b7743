using Athwart.Signals.FixedMath;
using Athwart.Signals.Fourier;

namespace Athwart.Signals.Convolution;

/// <summary>Taps whose amplitude follows a curve.</summary>
/// <remarks>
/// Linear phase: the transform of the curve itself. Minimum phase: the phase is the Hilbert transform of the log amplitude, by folding the
/// real cepstrum (Oppenheim and Schafer, Discrete-Time Signal Processing, from memory). Both are computed on eight times the longest
/// length and cut to the shortest whose cut-off part is too small to matter; the last quarter (of each side) fades out.
/// </remarks>
internal static class CurveFilter
{
    /// <summary>Where curves end: nothing is drawn lower, because silence has no logarithm.</summary>
    public const double LowestDecibels = -120;

    private const int Shortest = 64;
    private const int Oversampling = 8;

    /// <summary>What is cut off as a part of the smallest amplitude, unless said: 0.009 dB.</summary>
    public const double Fine = 1e-3;

    /// <summary>What is cut off where the curve itself is measured to some tenths of a decibel: 0.04 dB.</summary>
    public const double Measured = 5e-3;

    private const double OfLargest = 1e-5;

    /// <summary>The longest filter at a rate: about a sixth of a second, so that curves may bend within some 12 Hz.</summary>
    private static int Longest(int sampleRateHertz)
    {
        var length = 8192;
        for (; length * 6L < sampleRateHertz; length *= 2)
        {
        }

        return length;
    }

    /// <summary>Designs the taps; for linear phase an odd number of them, the middle one being the delay.</summary>
    /// <param name="decibels">The wanted gain in dB at a frequency in hertz from 0 to half the rate.</param>
    /// <param name="sampleRateHertz">Sample rate in hertz.</param>
    /// <param name="phase">Linear or minimum.</param>
    /// <param name="ofSmallest">What may be cut off, as a part of the smallest amplitude.</param>
    public static double[] Design(Func<double, double> decibels, int sampleRateHertz, FilterPhase phase, double ofSmallest = Fine)
    {
        var longest = Longest(sampleRateHertz);
        var n = Oversampling * longest;
        var amplitudes = new double[(n / 2) + 1];
        for (var k = 0; k < amplitudes.Length; k++)
            amplitudes[k] = FixedExponential.AmplitudeRatio(Math.Max(LowestDecibels, decibels((double)k * sampleRateHertz / n)));
        var (smallest, largest) = (amplitudes.Min(), amplitudes.Max());
        var allowed = Math.Max(ofSmallest * smallest, OfLargest * largest);
        var transform = new FixedFourierTransform(n);
        return phase == FilterPhase.Linear
            ? Centred(Even(amplitudes, transform), longest / 2, allowed)
            : FromStart(MinimumPhase(amplitudes, transform), longest, allowed);
    }

    // The signal whose transform has these values at both halves: real and even.
    private static double[] Even(double[] values, FixedFourierTransform transform)
    {
        var n = transform.Length;
        double[] real = new double[n], imaginary = new double[n];
        for (var k = 0; k <= n / 2; k++)
            real[k] = real[(n - k) % n] = values[k];
        transform.Forward(real, imaginary);
        for (var k = 0; k < n; k++)
            real[k] /= n;
        return real;
    }

    private static double[] MinimumPhase(double[] amplitudes, FixedFourierTransform transform)
    {
        var n = transform.Length;
        var real = Even([.. amplitudes.Select(FixedExponential.Log)], transform);
        var imaginary = new double[n];
        for (var i = 1; i < n; i++)
            real[i] *= i < n / 2 ? 2 : i == n / 2 ? 1 : 0;
        transform.Forward(real, imaginary);
        for (var k = 0; k < n; k++)
        {
            var (size, angle) = (FixedExponential.Exp(real[k]), imaginary[k]);
            (real[k], imaginary[k]) = (size * FixedTrigonometry.Cos(angle) / n, size * FixedTrigonometry.Sin(angle) / n);
        }

        transform.Inverse(real, imaginary);
        return real;
    }

    private static double[] FromStart(double[] response, int longest, double allowed)
    {
        var length = Shortest;
        while (length < longest && Beyond(response, length * 3 / 4, response.Length / 2) > allowed)
            length *= 2;
        return [.. response.Take(length).Select((x, i) => x * Fade(i, length))];
    }

    // Response is even about 0; half is the number of taps on each side of the middle.
    private static double[] Centred(double[] response, int longest, double allowed)
    {
        var half = Shortest / 2;
        while (half < longest && 2 * Beyond(response, half * 3 / 4, response.Length / 2) > allowed)
            half *= 2;
        return [.. Enumerable.Range(-half, (2 * half) + 1).Select(i => response[Math.Abs(i)] * Fade(Math.Abs(i), half + 1))];
    }

    private static double Beyond(double[] response, int from, int to)
    {
        var sum = 0.0;
        for (var i = from; i < to; i++)
            sum += Math.Abs(response[i]);
        return sum;
    }

    private static double Fade(int i, int length)
    {
        var place = ((double)i / length * 4) - 3;
        return place <= 0 ? 1 : (1 + FixedTrigonometry.CosPi(place)) / 2;
    }
}
