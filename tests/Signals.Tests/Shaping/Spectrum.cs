using System.Numerics;

namespace Athwart.Signals.Tests.Shaping;

/// <summary>The transform of a signal at one frequency, by its definition.</summary>
internal static class Spectrum
{
    public static Complex At(ReadOnlySpan<double> samples, double hertz, double sampleRateHertz)
    {
        var sum = Complex.Zero;
        for (var n = 0; n < samples.Length; n++)
            sum += samples[n] * Complex.FromPolarCoordinates(1, -2 * Math.PI * ((hertz * n / sampleRateHertz) % 1));
        return sum;
    }

    public static double Ratio(ReadOnlySpan<double> samples, double hertz, double sampleRateHertz) => At(samples, hertz, sampleRateHertz).Magnitude;

    public static double Decibels(ReadOnlySpan<double> samples, double hertz, double sampleRateHertz) => 20 * Math.Log10(Ratio(samples, hertz, sampleRateHertz));
}
