namespace Athwart.Metering.Faults;

/// <summary>What the low end did, every eighth of a second: powers of mid and side from 10 to 80 and from 100 to 400 Hz, how they agree, how they slope.</summary>
internal sealed class LowFrames(double rate)
{
    public const int Length = 512, Hop = Length / 2;
    private readonly PairFrame _frame = new(Length);
    private readonly GrownList<LowFrame> _frames = [];
    private readonly int _from = (int)Math.Ceiling(10 * Length / rate), _to = (int)(80 * Length / rate);
    private readonly int _bandFrom = (int)(100 * Length / rate), _bandTo = (int)Math.Min(400 * Length / rate, Decimator.Pass * Length);

    /// <summary>One record for each hop: 40 bytes.</summary>
    public IReadOnlyList<LowFrame> Frames => _frames;

    /// <summary>Takes the next frame.</summary>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        _frame.Take(mid, side, _bandTo + 1);
        var (re, im) = (0f, 0f);
        for (var k = _from; k <= _to; k++)
        {
            var ((a, b), (c, d)) = (_frame.Mid[k], _frame.Side[k]);
            re += (a * c) + (b * d);
            im += (b * c) - (a * d);
        }

        _frames.Add(new(
            Power(_frame.Mid, _from, _to),
            Power(_frame.Side, _from, _to),
            Power(_frame.Mid, _bandFrom, _bandTo),
            Power(_frame.Side, _bandFrom, _bandTo),
            re / 3,
            im / 3,
            Slope(_frame.Mid, out var midTonal),
            Slope(_frame.Side, out var sideTonal),
            midTonal,
            sideTonal));
    }

    /// <summary>Mean square: a Hann window spreads a sine over bins that sum to 1.5 of its peak, whose mean square is a half.</summary>
    private static float Power((float Re, float Im)[] x, int from, int to)
    {
        var sum = 0f;
        for (var k = from; k <= to; k++)
            sum += (x[k].Re * x[k].Re) + (x[k].Im * x[k].Im);
        return sum / 3;
    }

    /// <summary>
    /// Exponent of the power spectrum from 10 to 80 Hz by least squares in the logarithm, and how far the spectrum lies about that line:
    /// root mean square in decibels. The powers of noise are exponentially distributed, which gives 5.6 dB; a line leaves its neighbours far below.
    /// </summary>
    private float Slope((float Re, float Im)[] x, out float spread)
    {
        var (sx, sy, sxx, sxy, syy, n) = (0.0, 0.0, 0.0, 0.0, 0.0, 0);
        for (var k = _from; k <= _to; k++, n++)
        {
            var (u, v) = (Math.Log(k), Math.Log((x[k].Re * x[k].Re) + (x[k].Im * x[k].Im) + 1e-20));
            (sx, sy, sxx, sxy, syy) = (sx + u, sy + v, sxx + (u * u), sxy + (u * v), syy + (v * v));
        }

        var slope = ((n * sxy) - (sx * sy)) / ((n * sxx) - (sx * sx));
        var about = (syy / n) - (sy * sy / n / n) - (slope * slope * ((sxx / n) - (sx * sx / n / n)));
        spread = (float)(10 / Math.Log(10) * Math.Sqrt(Math.Max(0, about)));
        return (float)slope;
    }
}

/// <summary>The low end over a quarter of a second; powers are mean squares.</summary>
internal readonly record struct LowFrame(float MidLow, float SideLow, float MidBand, float SideBand, float CrossRe, float CrossIm, float MidSlope, float SideSlope, float MidSpread = 0, float SideSpread = 0)
{
    public float Low(bool side) => side ? SideLow : MidLow;

    public float Band(bool side) => side ? SideBand : MidBand;

    /// <summary>How far the spectrum lies about its slope, in decibels.</summary>
    public float Spread(bool side) => side ? SideSpread : MidSpread;

    public float Slope(bool side) => side ? SideSlope : MidSlope;
}
