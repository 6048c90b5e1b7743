using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Athwart.Signals.FixedMath;
using Athwart.Signals.Fourier;

namespace Athwart.Signals.Convolution;

/// <summary>y[n] = Σ h[k]·x[n − k] for hundreds to many thousands of taps, by the Fourier transform, in blocks (overlap-save).</summary>
/// <remarks>
/// Two blocks in a row go through one transform as its real and imaginary part. Blocks lie at whole multiples of their length from frame 0 of
/// the take, not from where one began, so every split into calls gives the same bits. Error about 1e-15 of the largest sample of two blocks.
/// </remarks>
internal sealed class LongFilter
{
    private const int LeastTransform = 1024;

    // Up to here both planes and their scratch stay in the cache nearest to the processor but one.
    private const int CachedTransform = 16384;

    private readonly FixedFourierTransform _transform;
    private readonly double[] _filterReal;
    private readonly double[] _filterImaginary;
    private readonly int _history;
    private readonly int _hop;
    private readonly double[] _input;
    private readonly double[] _output;
    private readonly double[] _real;
    private readonly double[] _imaginary;
    private int _at;

    /// <summary>Prepares the taps.</summary>
    public LongFilter(ReadOnlySpan<double> taps)
    {
        var n = TransformLength(taps.Length);
        _transform = new(n);
        _history = taps.Length - 1;
        _hop = n - _history;
        (_input, _output) = (new double[_history + (2 * _hop)], new double[2 * _hop]);
        (_real, _imaginary) = (new double[n], new double[n]);
        (_filterReal, _filterImaginary) = (new double[n], new double[n]);
        for (var k = 0; k < taps.Length; k++)
            _filterReal[k] = taps[k] / n;
        _transform.Forward(_filterReal, _filterImaginary);
    }

    /// <summary>Whether vectors are used where the machine has them; for comparing the two.</summary>
    public bool UseVectors { get; init; } = Vector256.IsHardwareAccelerated;

    /// <summary>How many frames later the output comes than y[n] says.</summary>
    public int LatencyFrames => 2 * _hop;

    /// <summary>The latency for a number of taps.</summary>
    public static int LatencyFor(int taps) => 2 * (TransformLength(taps) - taps + 1);

    /// <summary>Forgets everything; the next frame has this number.</summary>
    public void Begin(long firstFrame)
    {
        Array.Clear(_input);
        Array.Clear(_output);
        _at = (int)Floored.Rest(firstFrame, 2 * _hop);
    }

    /// <summary>Takes the next samples and puts in their place what is ready.</summary>
    public void Process(Span<double> samples)
    {
        while (samples.Length > 0)
        {
            var count = Math.Min(samples.Length, (2 * _hop) - _at);
            samples[..count].CopyTo(_input.AsSpan(_history + _at));
            _output.AsSpan(_at, count).CopyTo(samples);
            samples = samples[count..];
            _at += count;
            if (_at == 2 * _hop)
                TwoBlocks();
        }
    }

    private static int TransformLength(int taps)
    {
        var twice = (int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)Math.Max(LeastTransform, 2 * (taps - 1)));
        // Twice as much again does a third of the work less, as long as it stays in that cache, and waits longer.
        return twice >= CachedTransform ? twice : Math.Max(LeastTransform, 2 * twice);
    }

    private void TwoBlocks()
    {
        _input.AsSpan(0, _real.Length).CopyTo(_real);
        _input.AsSpan(_hop, _real.Length).CopyTo(_imaginary);
        _transform.Forward(_real, _imaginary);
        Multiply();
        _transform.Inverse(_real, _imaginary);
        _real.AsSpan(_history).CopyTo(_output);
        _imaginary.AsSpan(_history).CopyTo(_output.AsSpan(_hop));
        _input.AsSpan(2 * _hop).CopyTo(_input);
        _at = 0;
    }

    private void Multiply()
    {
        var k = 0;
        if (UseVectors)
        {
            ref var r = ref MemoryMarshal.GetArrayDataReference(_real);
            ref var i = ref MemoryMarshal.GetArrayDataReference(_imaginary);
            for (; k + 4 <= _real.Length; k += 4)
            {
                var (ar, ai) = (Vector256.LoadUnsafe(ref r, (nuint)k), Vector256.LoadUnsafe(ref i, (nuint)k));
                var (br, bi) = (Vector256.LoadUnsafe(ref _filterReal[0], (nuint)k), Vector256.LoadUnsafe(ref _filterImaginary[0], (nuint)k));
                ((ar * br) - (ai * bi)).StoreUnsafe(ref r, (nuint)k);
                ((ar * bi) + (ai * br)).StoreUnsafe(ref i, (nuint)k);
            }
        }

        for (; k < _real.Length; k++)
        {
            var (ar, ai, br, bi) = (_real[k], _imaginary[k], _filterReal[k], _filterImaginary[k]);
            (_real[k], _imaginary[k]) = ((ar * br) - (ai * bi), (ar * bi) + (ai * br));
        }
    }
}
