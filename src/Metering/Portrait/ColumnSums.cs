namespace Athwart.Metering.Portrait;

/// <summary>Extremes and second moments of mid and side for each column.</summary>
internal sealed class ColumnSums(ColumnLayout layout)
{
    private readonly float[] _midLow = new float[layout.Columns];
    private readonly float[] _midHigh = new float[layout.Columns];
    private readonly float[] _sideLow = new float[layout.Columns];
    private readonly float[] _sideHigh = new float[layout.Columns];
    private readonly double[] _midMid = new double[layout.Columns];
    private readonly double[] _sideSide = new double[layout.Columns];
    private readonly double[] _midSide = new double[layout.Columns];
    private int _column;

    public void Add(long firstFrame, ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        while (mid.Length > 0)
        {
            while (firstFrame >= layout.Start(_column + 1))
                _column++;
            var count = (int)Math.Min(mid.Length, layout.Start(_column + 1) - firstFrame);
            AddToColumn(firstFrame == layout.Start(_column), mid[..count], side[..count]);
            firstFrame += count;
            mid = mid[count..];
            side = side[count..];
        }
    }

    public RoleTrace Mid() => new(_midLow, _midHigh, Rms(_midMid));

    public RoleTrace Side() => new(_sideLow, _sideHigh, Rms(_sideSide));

    /// <summary>r = ΣLR / √(ΣLL·ΣRR) over a window around each column, from the sums of mid and side alone.</summary>
    public float[] LeftRightCorrelation(double sideGain, double windowFrames)
    {
        var result = new float[layout.Columns];
        var columnFrames = layout.Columns == 0 ? 1 : (double)layout.FrameCount / layout.Columns;
        var reach = columnFrames >= windowFrames ? 0 : (int)Math.Ceiling(windowFrames / columnFrames / 2);
        for (var c = 0; c < result.Length; c++)
            result[c] = Correlation(Math.Max(0, c - reach), Math.Min(layout.Columns, c + reach + 1), sideGain);
        return result;
    }

    private float Correlation(int from, int to, double sideGain)
    {
        double mm = 0, ss = 0, ms = 0;
        for (var c = from; c < to; c++)
        {
            mm += _midMid[c];
            ss += _sideSide[c] * sideGain * sideGain;
            ms += _midSide[c] * sideGain;
        }

        var left = mm + (2 * ms) + ss;
        var right = mm - (2 * ms) + ss;
        // Below this, one loudspeaker holds only what rounding left of the subtraction: it is silent.
        var nothing = 1e-13 * (mm + ss);
        return left <= nothing || right <= nothing ? float.NaN : (float)Math.Clamp((mm - ss) / Math.Sqrt(left * right), -1, 1);
    }

    private void AddToColumn(bool first, ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        var (midLow, midHigh) = first ? (mid[0], mid[0]) : (_midLow[_column], _midHigh[_column]);
        var (sideLow, sideHigh) = first ? (side[0], side[0]) : (_sideLow[_column], _sideHigh[_column]);
        double mm = _midMid[_column], ss = _sideSide[_column], ms = _midSide[_column];
        for (var i = 0; i < mid.Length; i++)
        {
            float m = mid[i], s = side[i];
            midLow = Math.Min(midLow, m);
            midHigh = Math.Max(midHigh, m);
            sideLow = Math.Min(sideLow, s);
            sideHigh = Math.Max(sideHigh, s);
            mm += (double)m * m;
            ss += (double)s * s;
            ms += (double)m * s;
        }

        (_midLow[_column], _midHigh[_column], _sideLow[_column], _sideHigh[_column]) = (midLow, midHigh, sideLow, sideHigh);
        (_midMid[_column], _sideSide[_column], _midSide[_column]) = (mm, ss, ms);
    }

    private float[] Rms(double[] sums)
    {
        var result = new float[sums.Length];
        for (var c = 0; c < sums.Length; c++)
            result[c] = (float)Math.Sqrt(sums[c] / (layout.Start(c + 1) - layout.Start(c)));
        return result;
    }
}
