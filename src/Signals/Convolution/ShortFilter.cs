using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Signals.Convolution;

/// <summary>y[n] = Σ h[k]·x[n − k] for a few dozen taps, by its definition: k rising, every product and sum rounded by itself.</summary>
/// <remarks>Vectors take four outputs at a time; each of them is summed as the plain loop sums it, so the bits are the same.</remarks>
internal sealed class ShortFilter
{
    private const int Chunk = 512;
    private readonly double[] _taps;

    // What went before, then the chunk at work.
    private readonly double[] _line;

    public ShortFilter(ReadOnlySpan<double> taps)
    {
        _taps = taps.ToArray();
        _line = new double[_taps.Length - 1 + Chunk];
    }

    public bool UseVectors { get; init; } = Vector256.IsHardwareAccelerated;

    public void Reset() => Array.Clear(_line);

    /// <summary>Filters the next samples in place.</summary>
    public void Process(Span<double> samples)
    {
        var before = _taps.Length - 1;
        while (samples.Length > 0)
        {
            var count = Math.Min(samples.Length, Chunk);
            samples[..count].CopyTo(_line.AsSpan(before));
            Filter(samples[..count]);
            _line.AsSpan(count, before).CopyTo(_line);
            samples = samples[count..];
        }
    }

    private void Filter(Span<double> output)
    {
        var n = 0;
        if (UseVectors)
        {
            for (; n + 16 <= output.Length; n += 16)
                Sixteen(n, output);
        }

        for (; n < output.Length; n++)
            output[n] = One(n);
    }

    private double One(int n)
    {
        var sum = 0.0;
        var newest = n + _taps.Length - 1;
        for (var k = 0; k < _taps.Length; k++)
            sum += _taps[k] * _line[newest - k];
        return sum;
    }

    private void Sixteen(int n, Span<double> output)
    {
        ref var x = ref MemoryMarshal.GetArrayDataReference(_line);
        Vector256<double> a = default, b = default, c = default, d = default;
        var at = (nuint)(n + _taps.Length - 1);
        foreach (var tap in _taps)
        {
            var h = Vector256.Create(tap);
            a += h * Vector256.LoadUnsafe(ref x, at);
            b += h * Vector256.LoadUnsafe(ref x, at + 4);
            c += h * Vector256.LoadUnsafe(ref x, at + 8);
            d += h * Vector256.LoadUnsafe(ref x, at + 12);
            at--;
        }

        ref var y = ref MemoryMarshal.GetReference(output);
        a.StoreUnsafe(ref y, (nuint)n);
        b.StoreUnsafe(ref y, (nuint)n + 4);
        c.StoreUnsafe(ref y, (nuint)n + 8);
        d.StoreUnsafe(ref y, (nuint)n + 12);
    }
}
