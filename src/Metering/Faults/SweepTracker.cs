namespace Athwart.Metering.Faults;

/// <summary>A narrow line that moved: from and to in bins and blocks.</summary>
internal readonly record struct Sweep(double FromBin, double ToBin, long FromBlock, long ToBlock, double Power, double Share);

/// <summary>Follows the narrow lines of one channel from spectrum to spectrum and keeps those that go evenly from one frequency to another.</summary>
/// <remarks>
/// A voice, a siren or an engine wanders and has many lines; an instrument's sweep goes evenly. Memory is fixed: 24 lines at a time are
/// followed, and the 16 strongest sweeps kept.
/// </remarks>
internal sealed class SweepTracker
{
    private const int MostPeaks = 12, MostLines = 24, Kept = 16, Segment = 16;
    private const float Stands = 40; // 16 dB above the mean of the quieter segment beside it
    private readonly List<Line> _lines = [];
    private readonly List<Sweep> _sweeps = [];
    private readonly float[] _means = new float[PairSpectrum.Bins / Segment];
    private readonly List<(double Bin, double Power)> _peaks = [];

    /// <summary>What moved evenly, once <see cref="Complete"/> was called.</summary>
    public IReadOnlyList<Sweep> Sweeps => _sweeps;

    /// <summary>Takes the powers of the spectrum of a block.</summary>
    public void Add(ReadOnlySpan<float> power, long block)
    {
        FindPeaks(power);
        foreach (var (bin, size) in _peaks)
        {
            var line = Nearest(bin, block);
            if (line is not null)
                line.Go(bin, size, block);
            else if (_lines.Count < MostLines)
                _lines.Add(new(bin, size, block));
        }

        for (var i = _lines.Count - 1; i >= 0; i--)
        {
            if (block - _lines[i].Last <= Math.Max(12, (_lines[i].Last - _lines[i].First) / 6))
                continue;
            End(_lines[i]);
            _lines.RemoveAt(i);
        }
    }

    /// <summary>Ends the take.</summary>
    public void Complete()
    {
        foreach (var line in _lines)
            End(line);
        _lines.Clear();
    }

    private void FindPeaks(ReadOnlySpan<float> power)
    {
        for (var s = 0; s < _means.Length; s++)
        {
            var sum = 0f;
            for (var k = s * Segment; k < (s + 1) * Segment; k++)
                sum += power[k];
            _means[s] = sum / Segment;
        }

        _peaks.Clear();
        for (var s = 1; s + 1 < _means.Length; s++)
        {
            var around = MathF.Min(_means[s - 1], _means[s + 1]);
            // A line alone in its segment makes the mean a twelfth of itself.
            if (_means[s] < around * (Stands / Segment) || _means[s] < 1e-12f)
                continue;
            var k = s * Segment;
            for (var i = k; i < (s + 1) * Segment; i++)
                k = power[i] > power[k] ? i : k;
            if (power[k] > Stands * around && power[k] >= power[k - 1] && power[k] >= power[k + 1])
                _peaks.Add((k + Offset(power, k), power[k]));
        }

        if (_peaks.Count <= MostPeaks)
            return;
        _peaks.Sort((a, b) => b.Power.CompareTo(a.Power));
        _peaks.RemoveRange(MostPeaks, _peaks.Count - MostPeaks);
    }

    private static double Offset(ReadOnlySpan<float> power, int k)
    {
        var (a, b, c) = (Math.Log(power[k - 1] + 1e-30), Math.Log(power[k] + 1e-30), Math.Log(power[k + 1] + 1e-30));
        var bend = a - (2 * b) + c;
        return Math.Abs(bend) < 1e-9 ? 0 : Math.Clamp((a - c) / (2 * bend), -0.5, 0.5);
    }

    private Line? Nearest(double bin, long block)
    {
        var (best, distance) = ((Line?)null, 0.0);
        foreach (var line in _lines)
        {
            var off = Math.Abs(line.Expected(block) - bin);
            if (line.Last < block && off < line.Reach(block) && (best is null || off < distance))
                (best, distance) = (line, off);
        }

        return best;
    }

    private void End(Line line)
    {
        if (line.ToSweep() is not { } sweep)
            return;
        _sweeps.Add(sweep);
        if (_sweeps.Count > Kept)
            _sweeps.Remove(_sweeps.MinBy(s => s.Power * (s.ToBlock - s.FromBlock)));
    }

    /// <summary>Sums for a straight line through the places of one line.</summary>
    private sealed class Line(double bin, double power, long block)
    {
        private double _n = 1, _t, _tt, _x = bin, _tx, _xx = bin * bin, _power = power, _level = Math.Log(power), _levels = Math.Log(power) * Math.Log(power);

        public long First { get; } = block;

        public long Last { get; private set; } = block;

        /// <summary>How far from the expected a peak may lie: while its slope is not known, two octaves in ten seconds; then two bins and a half.</summary>
        public double Reach(long at) => _n < 5 ? Math.Min(40, 2 + (10 * (at - Last))) : 2.5 + (0.2 * (at - Last));

        private double Slope => _n > 3 && (_n * _tt) - (_t * _t) is > 0 and var d ? ((_n * _tx) - (_t * _x)) / d : 0;

        public double Expected(long at) => (_x / _n) + (Slope * (at - First - (_t / _n)));

        public void Go(double at, double size, long now)
        {
            double t = now - First;
            (_n, _t, _tt, _x, _tx, _xx, _power) = (_n + 1, _t + t, _tt + (t * t), _x + at, _tx + (t * at), _xx + (at * at), _power + size);
            (_level, _levels) = (_level + Math.Log(size), _levels + (Math.Log(size) * Math.Log(size)));
            Last = now;
        }

        public Sweep? ToSweep()
        {
            var (mean, rise) = (_x / _n, Slope);
            var moved = rise * (Last - First);
            // Even: about a straight line less than a bin and a half; steady: the level within 4 dB; far enough to be no wavering tone.
            var spread = Math.Sqrt(Math.Max(0, (_xx / _n) - (mean * mean) - (rise * rise * ((_tt / _n) - (_t * _t / _n / _n)))));
            var level = Math.Sqrt(Math.Max(0, (_levels / _n) - (_level * _level / _n / _n))) * 4.34;
            if (_n < 12 || Math.Abs(moved) < Math.Max(4, 0.04 * mean) || spread > Math.Min(1.5, 0.15 * Math.Abs(moved)) || level > 4)
                return null;
            return new(Expected(First), Expected(Last), First, Last, _power / _n, _n);
        }
    }
}
