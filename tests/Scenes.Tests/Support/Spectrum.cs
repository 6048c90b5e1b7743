using Athwart.Signals.Fourier;

namespace Athwart.Scenes.Tests.Support;

/// <summary>Mean power of Hann-windowed pieces that overlap by half.</summary>
internal sealed class Spectrum(double[] power, double binHertz)
{
    private const int Length = 32768;

    public double Mean(double fromHertz, double toHertz) =>
        power[(int)Math.Ceiling(fromHertz / binHertz)..((int)Math.Floor(toHertz / binHertz) + 1)].Average();

    public static Spectrum Of(float[] x, double rate)
    {
        var power = new double[Length / 2];
        foreach (var (real, imaginary) in Pieces(x))
        {
            for (var k = 1; k < power.Length; k++)
                power[k] += Squared(real[k], imaginary[k]);
        }

        return new(power, rate / Length);
    }

    /// <summary>The real part of the coherency in a band, all pieces and bins pooled.</summary>
    public static double Coherence(float[] x, float[] y, double rate, double fromHertz, double toHertz)
    {
        double cross = 0, bins = 0;
        foreach (var ((xr, xi), (yr, yi)) in Pieces(x).Zip(Pieces(y)))
        {
            for (var k = (int)(fromHertz / rate * Length); k < toHertz / rate * Length; k++)
            {
                // Each bin weighs the same: a steep spectrum would leave only its lowest bins.
                var (px, py) = (Squared(xr[k], xi[k]), Squared(yr[k], yi[k]));
                cross += ((xr[k] * yr[k]) + (xi[k] * yi[k])) / Math.Sqrt(px * py);
                bins++;
            }
        }

        return cross / bins;
    }

    private static double Squared(float real, float imaginary) => ((double)real * real) + ((double)imaginary * imaginary);

    private static IEnumerable<(float[] Real, float[] Imaginary)> Pieces(float[] x)
    {
        var transform = new FourierTransform(Length);
        for (var start = 0; start + Length <= x.Length; start += Length / 2)
        {
            var (real, imaginary) = (new float[Length], new float[Length]);
            for (var i = 0; i < Length; i++)
                real[i] = x[start + i] * (float)(0.5 - (0.5 * Math.Cos(2 * Math.PI * i / Length)));
            transform.Forward(real, imaginary);
            yield return (real, imaginary);
        }
    }
}
