namespace Athwart.Metering.Faults;

/// <summary>Long-term spectra below 640 Hz for steady lines: frames of 2048 at about 2 kHz, each against the one half a frame before.</summary>
/// <remarks>
/// A steady line turns by the same angle from frame to frame, noise does not: the mean of X[t]·X*[t−1] keeps the line, its angle is
/// the frequency far finer than a bin, and its share of the mean power says how steady it is. Frames count by the inverse of their
/// power, so that the quiet between the sounds decides.
/// </remarks>
internal sealed class LineSpectrum
{
    public const int Length = 2048, Hop = Length / 2;
    private PairFrame _frame = new(Length), _last = new(Length);
    private bool _hasLast;
    private double _lastMidPower, _lastSidePower;

    public LineSpectrum(double rate)
    {
        Rate = rate;
        Bins = Math.Min((Length / 2) - 1, (int)(Decimator.Pass * Length));
        (Mid, Side) = (new(Bins), new(Bins));
    }

    public double Rate { get; }

    /// <summary>Bins that are whole.</summary>
    public int Bins { get; }

    public LineSums Mid { get; }

    public LineSums Side { get; }

    /// <summary>Takes the next frame.</summary>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        _frame.Take(mid, side, Bins);
        var low = (int)(30 * Length / Rate);
        var (midPower, sidePower) = (Power(_frame.Mid, low), Power(_frame.Side, low));
        if (_hasLast)
        {
            Mid.Add(_frame.Mid, _last.Mid, midPower + _lastMidPower);
            Side.Add(_frame.Side, _last.Side, sidePower + _lastSidePower);
        }

        (_frame, _last, _hasLast) = (_last, _frame, true);
        (_lastMidPower, _lastSidePower) = (midPower, sidePower);
    }

    private double Power((float Re, float Im)[] x, int from)
    {
        var sum = 1e-20;
        for (var k = from; k < Bins; k++)
            sum += (x[k].Re * x[k].Re) + (x[k].Im * x[k].Im);
        return sum;
    }
}

/// <summary>Weighted sums of one channel.</summary>
internal sealed class LineSums(int bins)
{
    private readonly double[] _re = new double[bins], _im = new double[bins], _power = new double[bins];
    private readonly double[] _plain = new double[bins], _least = new double[bins];
    private double _weight;

    /// <summary>Pairs of frames.</summary>
    public int Count { get; private set; }

    public void Add((float Re, float Im)[] now, (float Re, float Im)[] last, double power)
    {
        var w = 1 / power;
        for (var k = 1; k < bins; k++)
        {
            var ((a, b), (c, d)) = (now[k], last[k]);
            _re[k] += w * ((a * c) + (b * d));
            _im[k] += w * ((b * c) - (a * d));
            _power[k] += w * ((a * a) + (b * b) + (c * c) + (d * d)) / 2;
            var plain = ((a * a) + (b * b) + (c * c) + (d * d)) / 2;
            _plain[k] += plain;
            _least[k] = Count == 0 ? plain : Math.Min(_least[k], plain);
        }

        _weight += w;
        Count++;
    }

    /// <summary>Mean power where it is quiet; a sine of amplitude 1 on the bin reads 1.</summary>
    public double Power(int k) => _weight > 0 ? _power[k] / _weight : 0;

    /// <summary>Mean power over all frames alike.</summary>
    public double PlainPower(int k) => Count > 0 ? _plain[k] / Count : 0;

    /// <summary>Whether a line is there all the time: its bin never falls 7 dB below what turns steadily.</summary>
    public bool IsAlways(int k) => _least[k] > 0.2 * Steady(k);

    /// <summary>Power of what turns steadily.</summary>
    public double Steady(int k) => _weight > 0 ? Math.Sqrt((_re[k] * _re[k]) + (_im[k] * _im[k])) / _weight : 0;

    /// <summary>Share of the power that turns steadily, 0 to 1.</summary>
    public double Steadiness(int k) => _power[k] > 0 ? Math.Min(1, Math.Sqrt((_re[k] * _re[k]) + (_im[k] * _im[k])) / _power[k]) : 0;

    /// <summary>Frequency of the line at a bin, in bins.</summary>
    public double Frequency(int k)
    {
        // Half a frame is half a turn for each bin; the angle says the rest, up to whole turns.
        var turns = Math.Atan2(_im[k], _re[k]) / (2 * Math.PI);
        return 2 * (turns + Math.Round((k / 2.0) - turns));
    }

    /// <summary>Median power of the bins 4 to 12 away on both sides.</summary>
    public double Beside(int k)
    {
        var near = new List<double>(18);
        for (var i = Math.Max(2, k - 12); i <= Math.Min(bins - 1, k + 12); i++)
        {
            if (Math.Abs(i - k) >= 4)
                near.Add(Power(i));
        }

        near.Sort();
        return near.Count == 0 ? 0 : near[near.Count / 2];
    }
}
