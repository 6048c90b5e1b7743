namespace Athwart.Metering.Portrait;

/// <summary>Spectra of mid and side at fixed places of the stream, gathered into columns and log-frequency rows.</summary>
/// <remarks>
/// Each column averages the power of so many Hann-windowed spectra that neighbours lie at most half a window apart: nothing between
/// them is missed. Outside the cut counts as silence.
/// </remarks>
internal sealed class SpectrogramBuilder
{
    private const double LowestHertz = 20;
    private readonly ColumnLayout _layout;
    private readonly int _sampleRateHertz;
    private readonly PairTransform _transform;
    private readonly SpectrogramRows _rows;
    private readonly float[] _midRing;
    private readonly float[] _sideRing;
    private readonly byte[] _midSteps;
    private readonly byte[] _sideSteps;
    private long _framesSeen;
    private int _column;
    private int _spectrum;

    public SpectrogramBuilder(ColumnLayout layout, int sampleRateHertz, int rows)
    {
        _layout = layout;
        _sampleRateHertz = sampleRateHertz;
        _transform = new(WindowFrames((double)layout.FrameCount / sampleRateHertz, sampleRateHertz));
        _rows = new(rows, LowestHertz, sampleRateHertz / 2.0, (double)sampleRateHertz / _transform.Size);
        _midRing = new float[_transform.Size];
        _sideRing = new float[_transform.Size];
        _midSteps = new byte[layout.Columns * rows];
        _sideSteps = new byte[layout.Columns * rows];
    }

    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        while (mid.Length > 0)
        {
            var count = (int)Math.Min(mid.Length, NextWindowEnd() - _framesSeen);
            CopyToRing(mid[..count], side[..count]);
            if (_framesSeen == NextWindowEnd())
                TakeSpectrum();
            mid = mid[count..];
            side = side[count..];
        }
    }

    public (Spectrogram Mid, Spectrogram Side) Complete()
    {
        Span<float> silence = stackalloc float[256];
        while (_column < _layout.Columns)
            Add(silence, silence);
        return (Picture(_midSteps), Picture(_sideSteps));
    }

    /// <summary>A longer look at longer cuts (finer in frequency), a shorter one at short cuts (finer in time): 20 to 80 ms, then up to a power of two.</summary>
    private static int WindowFrames(double seconds, int sampleRateHertz)
    {
        var wanted = Math.Clamp(seconds / 60, 0.02, 0.08) * sampleRateHertz;
        return (int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)Math.Max(64, Math.Ceiling(wanted)));
    }

    private Spectrogram Picture(byte[] steps)
        => new(_layout.Columns, _rows.Count, LowestHertz, _sampleRateHertz / 2.0, steps, (double)_transform.Size / _sampleRateHertz);

    private int SpectraInColumn()
    {
        var frames = _layout.Start(_column + 1) - _layout.Start(_column);
        var hop = _transform.Size / 2;
        return (int)Math.Max(1, (frames + hop - 1) / hop);
    }

    private long NextWindowEnd()
    {
        if (_column >= _layout.Columns)
            return long.MaxValue;
        var from = _layout.Start(_column);
        var frames = _layout.Start(_column + 1) - from;
        var centre = from + (frames * ((2 * _spectrum) + 1) / (2 * SpectraInColumn()));
        return centre + (_transform.Size / 2);
    }

    private void CopyToRing(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        var mask = _transform.Size - 1;
        for (var i = 0; i < mid.Length; i++)
        {
            var at = (int)(_framesSeen + i) & mask;
            _midRing[at] = mid[i];
            _sideRing[at] = side[i];
        }

        _framesSeen += mid.Length;
    }

    private void TakeSpectrum()
    {
        _transform.AddPower(_midRing, _sideRing, (int)_framesSeen & (_transform.Size - 1));
        if (++_spectrum < SpectraInColumn())
            return;
        _rows.Write(_transform.MidPower, 1.0 / _spectrum, _midSteps, _column, _layout.Columns);
        _rows.Write(_transform.SidePower, 1.0 / _spectrum, _sideSteps, _column, _layout.Columns);
        _transform.Clear();
        _spectrum = 0;
        _column++;
    }
}
