using System.Numerics;
using System.Runtime.InteropServices;

namespace Athwart.Metering.Faults;

/// <summary>Brings one channel down to a lower rate.</summary>
/// <remarks>
/// A Kaiser-windowed low-pass of 8 or 16 taps for each step, computed for the samples that are kept only. By Kaiser's formula what
/// folds down onto 0 to 0.32 of the lower rate lies 80 dB down with 16 taps a step, and onto 0 to 0.18 with 8:
/// (80 − 8)/(2.285·2π·16) = 0.31 of the lower rate from pass to stop.
/// </remarks>
internal sealed class Decimator
{
    /// <summary>Highest frequency that is whole with 16 taps a step, as a share of the lower rate.</summary>
    public const double Pass = 0.32;

    private readonly float[] _taps, _samples;
    private int _held;

    public Decimator(int factor, int tapsForEach)
    {
        Factor = factor;
        _taps = Taps(factor, tapsForEach * factor);
        _samples = new float[_taps.Length + Factor + SampleWindow.Length];
        // Half a filter of silence before the take: the first sample kept is centred on its first frame.
        _held = _taps.Length / 2;
    }

    /// <summary>Frames between samples that are kept.</summary>
    public int Factor { get; }

    /// <summary>Takes up to 4096 frames and adds what they give to a list.</summary>
    public void Add(ReadOnlySpan<float> block, List<float> kept)
    {
        block.CopyTo(_samples.AsSpan(_held));
        _held += block.Length;
        var at = 0;
        for (; at + _taps.Length <= _held; at += Factor)
            kept.Add(Dot(_samples.AsSpan(at, _taps.Length)));
        _samples.AsSpan(at, _held - at).CopyTo(_samples);
        _held -= at;
    }

    private static float[] Taps(int factor, int n)
    {
        var taps = new double[n];
        for (var i = 0; i < n; i++)
        {
            var t = i - ((n - 1) / 2.0);
            var u = 2 * t / n;
            var x = Math.PI * t / factor;
            taps[i] = Bessel(7.857 * Math.Sqrt(1 - (u * u))) * Math.Sin(x) / x;
        }

        var sum = taps.Sum();
        return Array.ConvertAll(taps, t => (float)(t / sum));
    }

    private static double Bessel(double x)
    {
        var (sum, term) = (1.0, 1.0);
        for (var k = 1; term > 1e-12 * sum; k++)
            sum += term *= x * x / (4.0 * k * k);
        return sum;
    }

    private float Dot(ReadOnlySpan<float> x)
    {
        var a = MemoryMarshal.Cast<float, Vector<float>>(x);
        var b = MemoryMarshal.Cast<float, Vector<float>>(_taps);
        var (even, odd) = (Vector<float>.Zero, Vector<float>.Zero);
        var i = 0;
        for (; i + 1 < a.Length; i += 2)
        {
            even += a[i] * b[i];
            odd += a[i + 1] * b[i + 1];
        }

        if (i < a.Length)
            even += a[i] * b[i];
        var sum = Vector.Sum(even + odd);
        for (i = a.Length * Vector<float>.Count; i < x.Length; i++)
            sum += x[i] * _taps[i];
        return sum;
    }
}
