using System.Globalization;
using Athwart.Figures.Plots;
using Athwart.Signals.Fourier;

namespace Athwart.Jobs.Evidences;

/// <summary>How alike mid and side are when the side is moved: their cross-correlation with all frequencies at one weight.</summary>
internal static class LagView
{
    private const int Length = 1 << 14;
    private const int MostWindows = 120;
    private const int Widest = 160;

    public static string Draw(EvidenceCase found)
    {
        var alike = Correlation(found.Sound, found.Place.From, found.Place.To);
        var rate = found.Sound.SampleRateHertz;
        var size = found.Finding.Size ?? 0;
        var frames = string.Equals(found.Finding.SizeUnit, "ms", StringComparison.Ordinal) ? size * rate / 1000 : size;
        var plot = new Plot("How alike mid and side are by the delay of the side", PlotAxis.Between("frames by which the side is taken earlier", -Widest, Widest, plus: true), PlotAxis.Around("likeness, the strongest is 1", alike.Select(a => a.Y), 0.1, 1))
        {
            Curves = [new("", "plain", alike)],
            Guides = [new(0, true, "together"), .. found.Finding.Size is null ? Array.Empty<PlotGuide>() : [new(frames, true, string.Create(CultureInfo.InvariantCulture, $"{frames:0.0} frames"))]],
        };
        return PlotFigure.Draw(EvidencePicture.Label(found), plot);
    }

    private static List<(double X, double Y)> Correlation(IPairSound sound, long from, long to)
    {
        var transform = new FourierTransform(Length);
        var (re, im) = (new double[Length], new double[Length]);
        var count = (int)Math.Clamp((to - from) / Length, 1, MostWindows);
        for (var n = 0; n < count; n++)
            Add(transform, sound, from + (long)((double)n / Math.Max(1, count - 1) * Math.Max(0, to - from - Length)), re, im);
        // All frequencies at one weight; the inverse by the conjugate.
        var (real, imaginary) = (new float[Length], new float[Length]);
        for (var k = 1; k < Length; k++)
        {
            var size = Math.Sqrt((re[k] * re[k]) + (im[k] * im[k])) + 1e-30;
            (real[k], imaginary[k]) = ((float)(re[k] / size), (float)(-im[k] / size));
        }

        transform.Forward(real, imaginary);
        var values = Enumerable.Range(-Widest, (2 * Widest) + 1).Select(lag => (X: (double)lag, Y: (double)real[(lag + Length) % Length])).ToList();
        var most = values.Max(v => Math.Abs(v.Y));
        return values.ConvertAll(v => (v.X, most > 0 ? v.Y / most : 0));
    }

    private static void Add(FourierTransform transform, IPairSound sound, long at, double[] re, double[] im)
    {
        var (mid, side) = sound.Read(at, at + Length);
        var (a, b, c, d) = (Windowed(mid), new float[Length], Windowed(side), new float[Length]);
        transform.Forward(a, b);
        transform.Forward(c, d);
        for (var k = 0; k < Length; k++)
        {
            // conj(mid)·side: its inverse peaks at the frames by which the side is late.
            re[k] += ((double)a[k] * c[k]) + ((double)b[k] * d[k]);
            im[k] += ((double)a[k] * d[k]) - ((double)b[k] * c[k]);
        }
    }

    private static float[] Windowed(float[] samples)
    {
        for (var i = 0; i < samples.Length; i++)
            samples[i] = float.IsFinite(samples[i]) ? samples[i] * (float)(0.5 - (0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / samples.Length))) : 0;
        return samples;
    }
}
