using Athwart.Recordings;
using Athwart.Signals.Fourier;

namespace Athwart.Jobs.Listening;

/// <summary>Spectra of two signals at chosen places of a take, gathered as the strongest power of each row.</summary>
internal sealed class SpectrogramLook
{
    private readonly ListeningTake _take;
    private readonly SpectrogramPair _pair;
    private readonly FourierTransform _transform;
    private readonly PlanarBlock<float> _block;
    private readonly float[] _window;
    private readonly float[] _real;
    private readonly float[] _imaginary;
    private readonly float[] _first;
    private readonly float[] _second;
    private readonly (int From, int To, float Part)[] _rows;
    private readonly float[] _strongest = new float[2 * SpectrogramTiles.Rows];

    public SpectrogramLook(ListeningTake take, SpectrogramPair pair, int windowFrames)
    {
        (_take, _pair) = (take, pair);
        _transform = new(windowFrames);
        _block = new(take.Recording.ChannelCount, windowFrames);
        (_real, _imaginary) = (new float[windowFrames], new float[windowFrames]);
        (_first, _second) = (new float[(windowFrames / 2) + 1], new float[(windowFrames / 2) + 1]);
        // Hann, scaled so that a sine of amplitude 1 on a bin has power 1: its sum is N/2, a sine has half its amplitude in a bin.
        _window = [.. Enumerable.Range(0, windowFrames).Select(n => (float)((1 - Math.Cos(2 * Math.PI * n / windowFrames)) * 2 / windowFrames))];
        _rows = Layout(take.Recording.SampleRateHertz / 2.0, (double)take.Recording.SampleRateHertz / windowFrames, windowFrames / 2);
    }

    public int WindowFrames => _transform.Length;

    /// <summary>Looks at the window around a frame; outside the take counts as silence.</summary>
    public void Add(long centre)
    {
        Fill(centre - (WindowFrames / 2));
        _transform.Forward(_real, _imaginary);
        Separate();
        Gather(_first, _strongest.AsSpan(0, SpectrogramTiles.Rows));
        Gather(_second, _strongest.AsSpan(SpectrogramTiles.Rows));
    }

    /// <summary>Writes the strongest powers as one column of both planes, and forgets them.</summary>
    public void Write(byte[] cells, int column)
    {
        for (var row = 0; row < _strongest.Length; row++)
            cells[(row * SpectrogramTiles.Columns) + column] = HalfDecibels(_strongest[row]);
        Array.Clear(_strongest);
    }

    private static byte HalfDecibels(float power) =>
        power > 0 ? (byte)Math.Clamp(MathF.Round(255 + (20 * MathF.Log10(power))), 0, 255) : (byte)0;

    private void Fill(long from)
    {
        Array.Clear(_real);
        Array.Clear(_imaginary);
        var skip = (int)Math.Clamp(-from, 0, WindowFrames);
        var read = _take.Recording.Read(from + skip, WindowFrames - skip, _block);
        var mid = _block.Channel(_take.Roles.MidChannel);
        var side = _take.Roles.SideChannel is { } channel ? _block.Channel(channel) : [];
        var sign = _take.Roles.SideInverted ? -1f : 1f;
        for (var n = 0; n < read; n++)
        {
            var (m, s) = (Finite(mid[n]), side.IsEmpty ? 0 : sign * Finite(side[n]));
            var (first, second) = _pair == SpectrogramPair.MidSide ? (m, s) : (m + s, m - s);
            (_real[skip + n], _imaginary[skip + n]) = (first * _window[skip + n], second * _window[skip + n]);
        }
    }

    private static float Finite(float sample) => float.IsFinite(sample) ? sample : 0;

    /// <summary>Two real signals went through one transform: A[k] = (X[k] + X*[N−k])/2, B[k] = (X[k] − X*[N−k])/2i.</summary>
    private void Separate()
    {
        var mask = WindowFrames - 1;
        for (var k = 0; k < _first.Length; k++)
        {
            var mirror = (WindowFrames - k) & mask;
            var (a, b, c, d) = (_real[k], _imaginary[k], _real[mirror], _imaginary[mirror]);
            _first[k] = (((a + c) * (a + c)) + ((b - d) * (b - d))) / 4;
            _second[k] = (((b + d) * (b + d)) + ((c - a) * (c - a))) / 4;
        }
    }

    private void Gather(float[] power, Span<float> rows)
    {
        for (var r = 0; r < rows.Length; r++)
        {
            var (from, to, part) = _rows[r];
            if (to <= from)
                rows[r] = Math.Max(rows[r], power[from - 1] + (part * (power[from] - power[from - 1])));
            for (var k = from; k < to; k++)
                rows[r] = Math.Max(rows[r], power[k]);
        }
    }

    /// <summary>The bins of each row, or, where rows are narrower than bins, the share between the two bins around its centre.</summary>
    private static (int From, int To, float Part)[] Layout(double highestHertz, double binHertz, int lastBin)
    {
        var rows = new (int, int, float)[SpectrogramTiles.Rows];
        for (var r = 0; r < rows.Length; r++)
        {
            var (from, to) = ((int)Math.Ceiling(Edge(r) / binHertz), Math.Min(lastBin + 1, (int)Math.Ceiling(Edge(r + 1) / binHertz)));
            if (from < to)
            {
                rows[r] = (from, to, 0);
                continue;
            }

            var centre = Math.Min(Math.Sqrt(Edge(r) * Edge(r + 1)) / binHertz, lastBin - 1e-6);
            var below = (int)centre;
            rows[r] = (below + 1, below + 1, (float)(centre - below));
        }

        return rows;

        double Edge(int row) => SpectrogramTiles.LowestHertz * Math.Pow(highestHertz / SpectrogramTiles.LowestHertz, (double)row / SpectrogramTiles.Rows);
    }
}
