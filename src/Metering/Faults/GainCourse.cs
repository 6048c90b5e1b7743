namespace Athwart.Metering.Faults;

/// <summary>How mid and side go in up to nine bands, every 20 ms: what tells a gain that jumps from sound that changes.</summary>
/// <remarks>
/// A gain moves every band of one channel by the same decibels at once, and its noise with them; a sound that begins, ends or passes
/// moves some. One frame of about 11 ms is transformed every 20 ms; 36 bytes are kept of it: 26 MB for 4 hours.
/// </remarks>
internal sealed class GainCourse
{
    /// <summary>Steps of 10 ms from frame to frame.</summary>
    public const int Hop = 2;

    // About an octave each; a low end and a top that are a role's own are one band of nine.
    private static readonly double[] Edges = [60, 150, 300, 600, 1200, 2400, 4000, 6500, 10_000, 16_000];
    private readonly PairFrame _frame;
    private readonly int[] _bins;
    private readonly float[] _mid, _side;
    private readonly TenMillisecondGrid _grid;
    private readonly GrownList<short> _levels = new();
    private long _position, _next;
    private int _filled;

    public GainCourse(int sampleRateHertz)
    {
        _grid = new(sampleRateHertz);
        var length = 64;
        while (length * 1.5 < sampleRateHertz / 90.0)
            length *= 2;
        (_frame, _mid, _side) = (new(length), new float[length], new float[length]);
        var width = sampleRateHertz / (double)length;
        _bins = [.. Edges.Where(hertz => hertz <= 0.46 * sampleRateHertz).Select(hertz => Math.Max(1, (int)Math.Round(hertz / width))).Distinct()];
    }

    /// <summary>Bands.</summary>
    public int Bands => _bins.Length - 1;

    /// <summary>How many bins a band has: the level of noise in it wavers by 5.6 dB over their root.</summary>
    public int Bins(int band) => _bins[band + 1] - _bins[band];

    /// <summary>Frames.</summary>
    public int Count => _levels.Count / (2 * Math.Max(1, Bands));

    /// <summary>Level of a band in decibels of full scale, −160 at silence.</summary>
    public double Level(bool side, int band, int frame) => _levels[(((frame * 2) + (side ? 1 : 0)) * Bands) + band] / 100.0;

    /// <summary>Takes the next block.</summary>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        var at = 0;
        while (at < mid.Length)
        {
            var skip = (int)Math.Min(mid.Length - at, Math.Max(0, _next - _position));
            (at, _position) = (at + skip, _position + skip);
            var take = Math.Min(mid.Length - at, _mid.Length - _filled);
            mid.Slice(at, take).CopyTo(_mid.AsSpan(_filled));
            side.Slice(at, take).CopyTo(_side.AsSpan(_filled));
            (at, _position, _filled) = (at + take, _position + take, _filled + take);
            if (_filled == _mid.Length)
                Close();
        }
    }

    private void Close()
    {
        _frame.Take(_mid, _side, _bins[^1]);
        Keep(_frame.Mid);
        Keep(_frame.Side);
        _filled = 0;
        _next = _grid.FrameOf(Hop * (Count + 0L));
    }

    private void Keep((float Re, float Im)[] x)
    {
        for (var b = 0; b < Bands; b++)
        {
            var sum = 1e-16f;
            for (var k = _bins[b]; k < _bins[b + 1]; k++)
                sum += (x[k].Re * x[k].Re) + (x[k].Im * x[k].Im);
            _levels.Add((short)(1000 * MathF.Log10(sum)));
        }
    }
}
