using System.Numerics;
using System.Runtime.InteropServices;
using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping.Control;

/// <summary>Makes a sound unlike the one it gets, of the same energy and spectrum.</summary>
internal interface IDecorrelator
{
    /// <summary>Frames until what lay before has faded by 140 dB.</summary>
    long SettlingFrames { get; }

    /// <summary>Forgets everything.</summary>
    void Begin();

    /// <summary>Takes frames and puts what comes out in their place.</summary>
    void Process(Span<double> samples);
}

/// <summary>Eight all-pass filters in a row, y(n) = −a·x(n) + x(n − d) + a·y(n − d), their delays growing and drawn from a seed.</summary>
/// <remarks>Each has a gain of 1 at every frequency. Source: Schroeder's all-pass reverberator, from memory; what it does is measured in the tests.</remarks>
internal sealed class AllPassChain : IDecorrelator
{
    private const int Count = 8;

    // 0.5^23 is −138.5 dB, and what comes late comes weakly from each filter.
    private const double Feedback = 0.5;
    private const int FadedAfter = 26;
    private readonly double[][] _memories = new double[Count][];
    private readonly int[] _places = new int[Count];

    public AllPassChain(double spreadFrames, int seed)
    {
        long sum = 0;
        for (var n = 0; n < Count; n++)
        {
            // From 1/50 to 1/4 of the spread, in growing steps; odd, so that delays share few divisors.
            var part = 0.02 + (0.23 * n * n / ((Count - 1) * (Count - 1)));
            var delay = (int)(spreadFrames * part * (0.85 + (0.3 * Scatter.Unit(seed, n)))) | 1;
            _memories[n] = new double[delay];
            sum += delay;
        }

        SettlingFrames = sum * FadedAfter;
    }

    public long SettlingFrames { get; }

    public void Begin()
    {
        foreach (var memory in _memories)
            Array.Clear(memory);
        Array.Clear(_places);
    }

    public void Process(Span<double> samples)
    {
        for (var n = 0; n < Count; n++)
            Pass(samples, _memories[n], ref _places[n]);
    }

    // One memory w for both sums: w(n) = x(n) + a·w(n − d), y(n) = w(n − d) − a·w(n).
    private static void Pass(Span<double> samples, Span<double> memory, ref int place)
    {
        foreach (ref var sample in samples)
        {
            var late = memory[place];
            var now = sample + (Feedback * late);
            memory[place] = now;
            sample = late - (Feedback * now);
            place = place + 1 == memory.Length ? 0 : place + 1;
        }
    }
}

/// <summary>A sparse row of pulses of either sign, one at a drawn place in each cell, fading by 20 dB over the spread; their energy is 1.</summary>
/// <remarks>The first cell is empty, so that nothing of the sound itself is left. Source: velvet noise, from memory; measured in the tests.</remarks>
internal sealed class VelvetNoise : IDecorrelator
{
    private const double PulsesEachSecond = 1500;
    private readonly int[] _delays;
    private readonly double[] _gains;
    private const int Room = 8192;
    private readonly double[] _memory;
    private readonly int _past;
    private int _end;

    public VelvetNoise(double spreadSeconds, int rate, int seed)
    {
        var cell = rate / PulsesEachSecond;
        var count = Math.Max(6, (int)(spreadSeconds * PulsesEachSecond));
        _delays = new int[count];
        _gains = new double[count];
        double energy = 0;
        for (var n = 0; n < count; n++)
        {
            _delays[n] = (int)((n + 1 + Scatter.Unit(seed, 2 * n)) * cell);
            var sign = Scatter.Unit(seed, (2 * n) + 1) < 0.5 ? -1 : 1;
            _gains[n] = sign * FixedGain.AmplitudeRatio(-20.0 * n / count);
            energy += _gains[n] * _gains[n];
        }

        for (var n = 0; n < count; n++)
            _gains[n] /= Math.Sqrt(energy);
        _past = _delays[^1];
        _memory = new double[_past + Room];
        SettlingFrames = _past;
    }

    public long SettlingFrames { get; }

    public void Begin()
    {
        Array.Clear(_memory);
        _end = _past;
    }

    // What is new is appended to what was; each pulse then adds its copy of the past to all new frames at once, pulse after pulse.
    public void Process(Span<double> samples)
    {
        while (!samples.IsEmpty)
        {
            if (_end == _memory.Length)
            {
                _memory.AsSpan(_end - _past).CopyTo(_memory);
                _end = _past;
            }

            var count = Math.Min(samples.Length, _memory.Length - _end);
            samples[..count].CopyTo(_memory.AsSpan(_end));
            samples[..count].Clear();
            for (var n = 0; n < _delays.Length; n++)
                AddScaled(_memory.AsSpan(_end - _delays[n], count), _gains[n], samples);
            _end += count;
            samples = samples[count..];
        }
    }

    private static void AddScaled(ReadOnlySpan<double> source, double gain, Span<double> target)
    {
        ref var from = ref MemoryMarshal.GetReference(source);
        ref var to = ref MemoryMarshal.GetReference(target);
        var n = 0;
        for (; n <= source.Length - Vector<double>.Count; n += Vector<double>.Count)
            (Vector.LoadUnsafe(ref to, (nuint)n) + (gain * Vector.LoadUnsafe(ref from, (nuint)n))).StoreUnsafe(ref to, (nuint)n);
        for (; n < source.Length; n++)
            target[n] += gain * source[n];
    }
}

/// <summary>Numbers that look drawn by chance but hang on a seed and a place alone.</summary>
internal static class Scatter
{
    /// <summary>0 up to, not including, 1.</summary>
    public static double Unit(int seed, int place)
    {
        // A bijection of 64-bit words by shifts and odd factors; constants from memory (SplitMix64).
        var z = ((ulong)(uint)seed << 32) + (uint)place + 0x9E3779B97F4A7C15UL;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return ((z ^ (z >> 31)) >> 11) * (1.0 / (1UL << 53));
    }
}

/// <summary>Takes the low end away, 12 dB an octave, −3 dB at a corner: the Butterworth high-pass of second order by the bilinear transform.</summary>
/// <remarks>Corners lie far below the Nyquist frequency here, where the transform bends nothing that matters.</remarks>
internal sealed class LowEnd
{
    private readonly double _b;
    private readonly double _a1;
    private readonly double _a2;
    private double _first;
    private double _second;

    /// <summary>A corner as a part of the sampling rate.</summary>
    public LowEnd(double corner)
    {
        var tangent = FixedTrigonometry.SinPi(corner) / FixedTrigonometry.SinPi(0.5 - corner);
        var root = Math.Sqrt(2) * tangent;
        var scale = 1 / (1 + root + (tangent * tangent));
        _b = scale;
        _a1 = 2 * ((tangent * tangent) - 1) * scale;
        _a2 = (1 - root + (tangent * tangent)) * scale;
        // Poles lie at −ω/√2 ± iω/√2; e^(−16.2) is −140 dB.
        SettlingFrames = (long)Math.Ceiling(16.2 * 1.4143 / (2 * Math.PI * corner));
    }

    public long SettlingFrames { get; }

    public void Begin() => (_first, _second) = (0, 0);

    public void Process(Span<double> samples)
    {
        double first = _first, second = _second;
        foreach (ref var sample in samples)
        {
            var x = _b * sample;
            var y = x + first;
            first = (-2 * x) - (_a1 * y) + second;
            second = x - (_a2 * y);
            sample = y;
        }

        (_first, _second) = (first, second);
    }
}
