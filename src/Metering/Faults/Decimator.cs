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
        for (; at + _taps.Length + (3 * Factor) <= _held; at += 4 * Factor)
            AddFour(_samples.AsSpan(at, _taps.Length + (3 * Factor)), kept);
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

    /// <summary>Four samples at a time share what is loaded of the taps.</summary>
    private void AddFour(ReadOnlySpan<float> x, List<float> kept)
    {
        ref var tap = ref MemoryMarshal.GetArrayDataReference(_taps);
        ref var start = ref MemoryMarshal.GetReference(x);
        var step = (nuint)Factor;
        var (a, b, c, d) = (Vector<float>.Zero, Vector<float>.Zero, Vector<float>.Zero, Vector<float>.Zero);
        // Every number of taps is a multiple of eight, and a vector holds four or eight.
        for (nuint i = 0; i < (nuint)_taps.Length; i += (nuint)Vector<float>.Count)
        {
            var h = Vector.LoadUnsafe(ref tap, i);
            a = Vector.MultiplyAddEstimate(h, Vector.LoadUnsafe(ref start, i), a);
            b = Vector.MultiplyAddEstimate(h, Vector.LoadUnsafe(ref start, i + step), b);
            c = Vector.MultiplyAddEstimate(h, Vector.LoadUnsafe(ref start, i + (2 * step)), c);
            d = Vector.MultiplyAddEstimate(h, Vector.LoadUnsafe(ref start, i + (3 * step)), d);
        }

        kept.Add(Vector.Sum(a));
        kept.Add(Vector.Sum(b));
        kept.Add(Vector.Sum(c));
        kept.Add(Vector.Sum(d));
    }

    private float Dot(ReadOnlySpan<float> x)
    {
        var sum = Vector<float>.Zero;
        ref var tap = ref MemoryMarshal.GetArrayDataReference(_taps);
        ref var start = ref MemoryMarshal.GetReference(x);
        for (nuint i = 0; i < (nuint)_taps.Length; i += (nuint)Vector<float>.Count)
            sum = Vector.MultiplyAddEstimate(Vector.LoadUnsafe(ref tap, i), Vector.LoadUnsafe(ref start, i), sum);
        return Vector.Sum(sum);
    }
}
