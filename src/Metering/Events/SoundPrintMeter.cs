using Athwart.Signals.Fourier;

namespace Athwart.Metering.Events;

/// <summary>Takes the print of a sound from mid and side.</summary>
/// <remarks>Hann windows of about 20 ms; half-octave bands from 100 Hz to 12.8 kHz of mid and side together; stretches of 20, 40, 80 ms and so on. Common practice, no source.</remarks>
public sealed class SoundPrintMeter
{
    private const int Slices = 8;
    private const double FirstSliceSeconds = 0.02;
    private const double LowestHertz = 100;
    private const int Bands = 14;

    private readonly FourierTransform _transform;
    private readonly float[] _window, _mid, _side, _real, _imaginary;
    private readonly int[] _bandOf;
    private readonly double[] _powers = new double[Slices * Bands];
    private readonly int[] _counts = new int[Slices];
    private readonly int _rate;
    private int _filled;
    private long _start;

    /// <summary>Makes ready.</summary>
    /// <param name="sampleRateHertz">8000 to 768000.</param>
    public SoundPrintMeter(int sampleRateHertz)
    {
        _rate = sampleRateHertz;
        var length = (int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)(0.015 * sampleRateHertz));
        _transform = new(length);
        (_mid, _side, _real, _imaginary) = (new float[length], new float[length], new float[length], new float[length]);
        _window = [.. Enumerable.Range(0, length).Select(i => (float)(0.5 - (0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / length))))];
        _bandOf = [.. Enumerable.Range(0, (length / 2) + 1).Select(k => k == 0 ? -1 : (int)Math.Floor(2 * Math.Log2((double)k * sampleRateHertz / length / LowestHertz)))];
    }

    /// <summary>Listens to the next frames.</summary>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        for (var i = 0; i < mid.Length; i++)
        {
            (_mid[_filled], _side[_filled]) = (float.IsFinite(mid[i]) ? mid[i] : 0, float.IsFinite(side[i]) ? side[i] : 0);
            if (++_filled == _mid.Length)
                Measure(_mid.Length / 2);
        }
    }

    /// <summary>The print of what was heard; a sound shorter than a window is followed by silence.</summary>
    public SoundPrint Complete()
    {
        if (_filled > 0 || _counts.Sum() == 0)
        {
            _mid.AsSpan(_filled).Clear();
            _side.AsSpan(_filled).Clear();
            Measure(0);
        }

        var means = _powers.Select((p, i) => p / Math.Max(1, _counts[i / Bands])).ToArray();
        var loudest = means.Max();
        var levels = Array.ConvertAll(means, p => (float)(loudest > 0 && p > 0 ? Math.Max(-SoundPrint.Range, 10 * Math.Log10(p / loudest)) : -SoundPrint.Range));
        // A stretch counts by how loud it is, in decibels above nothing, so that a decay is heard too.
        var weights = Enumerable.Range(0, Slices).Select(s => SoundPrint.Range + levels.AsSpan(s * Bands, Bands).ToArray().Max()).ToArray();
        return new(levels, Array.ConvertAll(weights, w => (double)w));
    }

    private void Measure(int kept)
    {
        // Mid and side in one transform: the power of x + iy over both halves of the spectrum is that of x and of y.
        for (var i = 0; i < _real.Length; i++)
            (_real[i], _imaginary[i]) = (_mid[i] * _window[i], _side[i] * _window[i]);
        _transform.Forward(_real, _imaginary);
        var slice = Math.Min(Slices - 1, (int)Math.Log2(1 + (_start / (FirstSliceSeconds * _rate))));
        _counts[slice]++;
        for (var k = 0; k < _real.Length; k++)
        {
            var band = _bandOf[Math.Min(k, _real.Length - k)];
            if (band is >= 0 and < Bands)
                _powers[(slice * Bands) + band] += ((double)_real[k] * _real[k]) + ((double)_imaginary[k] * _imaginary[k]);
        }

        _start += _real.Length - kept;
        _mid.AsSpan(_mid.Length - kept).CopyTo(_mid);
        _side.AsSpan(_side.Length - kept).CopyTo(_side);
        _filled = kept;
    }
}
