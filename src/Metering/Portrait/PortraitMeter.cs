namespace Athwart.Metering.Portrait;

/// <summary>Listens to a mid/side stream once and keeps what is needed to draw it, in memory that does not grow with length.</summary>
/// <remarks>
/// The number of frames must be known, so that every column of the pictures knows its frames from the start. The portrait is the same,
/// bit for bit, however the stream is cut into blocks: sums run frame by frame in double, spectra at places that depend on the length alone.
/// </remarks>
public sealed class PortraitMeter
{
    private const int PieceFrames = 4096;
    private const double CorrelationWindowSeconds = 0.4;
    private readonly long _frameCount;
    private readonly int _sampleRateHertz;
    private readonly double _sideGain;
    private readonly ColumnSums _sums;
    private readonly VectorHistogram _vector;
    private readonly SpectrogramBuilder _spectra;
    private readonly float[] _mid = new float[PieceFrames];
    private readonly float[] _side = new float[PieceFrames];
    private long _framesSeen;
    private long _nonFinite;

    /// <summary>Prepares for a stream of a known length.</summary>
    /// <param name="frameCount">Frames that will come, 0 or more.</param>
    /// <param name="sampleRateHertz">Frames per second, 1 or more.</param>
    /// <param name="columns">Columns to draw over time, 1 or more; a cut of fewer frames gets one column a frame.</param>
    /// <param name="sideGain">Amplitude ratio of side against mid for left and right; finite, 0 is mono.</param>
    /// <param name="rows">Rows of the spectrograms, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    public PortraitMeter(long frameCount, int sampleRateHertz, int columns, double sideGain, int rows = 192)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frameCount);
        ArgumentOutOfRangeException.ThrowIfLessThan(sampleRateHertz, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(columns, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(rows, 1);
        if (!double.IsFinite(sideGain))
            throw new ArgumentOutOfRangeException(nameof(sideGain), sideGain, "the side gain is a finite amplitude ratio; 0 is mono");
        _frameCount = frameCount;
        _sampleRateHertz = sampleRateHertz;
        _sideGain = sideGain;
        var layout = new ColumnLayout(frameCount, (int)Math.Min(columns, frameCount));
        _sums = new(layout);
        _vector = new(sideGain);
        _spectra = new(layout, sampleRateHertz, rows);
    }

    /// <summary>Adds the next block.</summary>
    /// <param name="mid">Mid, full scale ±1.</param>
    /// <param name="side">Side, as many samples; positive lobe to the left.</param>
    /// <exception cref="ArgumentException">The lengths differ, or more frames came than were announced.</exception>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        if (mid.Length != side.Length)
            throw new ArgumentException($"mid has {mid.Length} samples and side {side.Length}; they must be equal", nameof(side));
        if (mid.Length > _frameCount - _framesSeen)
            throw new ArgumentException($"{_framesSeen} + {mid.Length} frames came where {_frameCount} were announced", nameof(mid));
        while (mid.Length > 0)
        {
            var count = Math.Min(mid.Length, PieceFrames);
            AddPiece(mid[..count], side[..count]);
            mid = mid[count..];
            side = side[count..];
        }
    }

    /// <summary>Closes the portrait.</summary>
    /// <exception cref="InvalidOperationException">Fewer frames came than were announced.</exception>
    public TakePortrait Complete()
    {
        if (_framesSeen != _frameCount)
            throw new InvalidOperationException($"{_framesSeen} frames came where {_frameCount} were announced");
        var (midSpectrogram, sideSpectrogram) = _spectra.Complete();
        return new()
        {
            FrameCount = _frameCount,
            SampleRateHertz = _sampleRateHertz,
            SideGain = _sideGain,
            Mid = _sums.Mid(),
            Side = _sums.Side(),
            Correlation = _sums.LeftRightCorrelation(_sideGain, CorrelationWindowSeconds * _sampleRateHertz),
            CorrelationWindowSeconds = CorrelationWindowSeconds,
            Vector = _vector.Complete(),
            MidSpectrogram = midSpectrogram,
            SideSpectrogram = sideSpectrogram,
            NonFiniteSamples = _nonFinite,
        };
    }

    private void AddPiece(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        var cleanMid = Clean(mid, _mid);
        var cleanSide = Clean(side, _side);
        _sums.Add(_framesSeen, cleanMid, cleanSide);
        _vector.Add(cleanMid, cleanSide);
        _spectra.Add(cleanMid, cleanSide);
        _framesSeen += mid.Length;
    }

    private ReadOnlySpan<float> Clean(ReadOnlySpan<float> samples, float[] target)
    {
        for (var i = 0; i < samples.Length; i++)
        {
            var finite = float.IsFinite(samples[i]);
            target[i] = finite ? samples[i] : 0;
            if (!finite)
                _nonFinite++;
        }

        return target.AsSpan(0, samples.Length);
    }
}
