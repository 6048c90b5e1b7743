namespace Athwart.Metering.Portrait;

/// <summary>Counts frames by (−g·side, mid) on a square grid whose range doubles when a sample falls outside.</summary>
/// <remarks>
/// Cells are powers of two wide, and doubling joins them two by two, so the counts are what they would have been had the final range
/// been known from the start: ⌊x/2c⌋ = ⌊⌊x/c⌋/2⌋.
/// </remarks>
internal sealed class VectorHistogram(double sideGain)
{
    private const int Cells = 256;
    private const int Half = Cells / 2;
    private long[] _counts = new long[Cells * Cells];
    private long[] _spare = new long[Cells * Cells];
    private double _cell = Math.ScaleB(1, -32);

    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        for (var i = 0; i < mid.Length; i++)
        {
            double across = -sideGain * side[i], up = mid[i];
            while (Math.Max(Math.Abs(across), Math.Abs(up)) >= Half * _cell)
                DoubleRange();
            _counts[((Half + (int)Math.Floor(up / _cell)) * Cells) + Half + (int)Math.Floor(across / _cell)]++;
        }
    }

    /// <summary>The grid without its empty border, counts on a logarithmic scale.</summary>
    public VectorPicture Complete()
    {
        var (reach, most) = Extent();
        if (most == 0)
            return new(0, 0, []);
        var size = 2 * reach;
        var density = new byte[size * size];
        for (var y = 0; y < size; y++)
        {
            for (var x = 0; x < size; x++)
                density[(y * size) + x] = Scaled(_counts[((Half - reach + y) * Cells) + Half - reach + x], most);
        }

        return new(size, reach * _cell, density);
    }

    private static byte Scaled(long count, long most)
        => count == 0 ? (byte)0 : (byte)(1 + (int)(254 * Math.Log(1 + count) / Math.Log(1 + most)));

    private (int Reach, long Most) Extent()
    {
        var reach = 1;
        var most = 0L;
        for (var i = 0; i < _counts.Length; i++)
        {
            if (_counts[i] == 0)
                continue;
            most = Math.Max(most, _counts[i]);
            reach = Math.Max(reach, Math.Max(Reach(i % Cells), Reach(i / Cells)));
        }

        return (reach, most);
    }

    private static int Reach(int index) => index >= Half ? index - Half + 1 : Half - index;

    private void DoubleRange()
    {
        var joined = _spare;
        joined.AsSpan().Clear();
        for (var i = 0; i < _counts.Length; i++)
        {
            // Arithmetic shift: rounds towards −∞, as the cells do.
            int x = ((i % Cells) - Half) >> 1, y = ((i / Cells) - Half) >> 1;
            joined[((Half + y) * Cells) + Half + x] += _counts[i];
        }

        (_spare, _counts) = (_counts, joined);
        _cell *= 2;
    }
}
