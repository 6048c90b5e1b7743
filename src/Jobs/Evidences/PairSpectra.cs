using Athwart.Signals.Fourier;

namespace Athwart.Jobs.Evidences;

/// <summary>Mean power spectra of mid and side over a stretch: Hann windows, spread evenly where there are more than are needed.</summary>
/// <param name="Hertz">The frequency of each bin.</param>
/// <param name="Mid">Level of the mid in each bin in dB; a full-scale sine on a bin reads 0.</param>
/// <param name="Side">The side's.</param>
internal sealed record PairSpectra(double[] Hertz, double[] Mid, double[] Side)
{
    private const int MostWindows = 160;

    /// <summary>Reads and transforms.</summary>
    /// <param name="sound">What to read.</param>
    /// <param name="from">The first frame.</param>
    /// <param name="to">The frame after the last.</param>
    /// <param name="length">Frames of a window, a power of two; shorter where the stretch is.</param>
    public static PairSpectra Of(IPairSound sound, long from, long to, int length)
    {
        while (length > 256 && length > to - from)
            length /= 2;
        var transform = new FourierTransform(length);
        var hann = Enumerable.Range(0, length).Select(i => (float)((0.5 - (0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / length))) * 4 / length)).ToArray();
        var (mid, side) = (new double[length / 2], new double[length / 2]);
        var count = (int)Math.Clamp((to - from) / (length / 2), 1, MostWindows);
        for (var n = 0; n < count; n++)
        {
            var at = count == 1 ? from : from + (long)((double)n / (count - 1) * Math.Max(0, to - from - length));
            var (m, s) = sound.Read(at, at + length);
            Add(transform, hann, m, mid, count);
            Add(transform, hann, s, side, count);
        }

        return new(
            [.. Enumerable.Range(0, length / 2).Select(k => (double)k * sound.SampleRateHertz / length)],
            Array.ConvertAll(mid, p => 10 * Math.Log10(p + 1e-16)),
            Array.ConvertAll(side, p => 10 * Math.Log10(p + 1e-16)));
    }

    private static void Add(FourierTransform transform, float[] hann, float[] samples, double[] power, int count)
    {
        var (re, im) = (new float[hann.Length], new float[hann.Length]);
        for (var i = 0; i < hann.Length; i++)
            re[i] = float.IsFinite(samples[i]) ? samples[i] * hann[i] : 0;
        transform.Forward(re, im);
        for (var k = 1; k < power.Length; k++)
            power[k] += (((double)re[k] * re[k]) + ((double)im[k] * im[k])) / count;
    }
}
