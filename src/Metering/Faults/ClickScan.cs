namespace Athwart.Metering.Faults;

/// <summary>Looks for samples that their neighbours do not foresee in one channel, in blocks of 4096.</summary>
/// <remarks>
/// A look at the fourth difference of every 64 samples costs little and passes over nearly everything; what stands out is judged by
/// linear prediction, at most <see cref="MostInABlock"/> places a block, so that a crackling fire does not take all the time.
/// </remarks>
internal sealed class ClickScan(SampleScale scale, int sampleRateHertz)
{
    internal const int MostInABlock = 4;
    private const int Block = SampleWindow.Length, Sub = SampleWindow.SubBlock, Subs = 2 * Block / Sub;

    // Where the block before is kept as well, a place half a block back has context on both sides.
    private readonly float[] _samples = new float[(2 * Block) + 8];
    private readonly float[] _largest = new float[Subs], _mean = new float[Subs];
    private readonly ImpulseJudge _judge = new(scale.Step);
    private readonly RunLedger _clicks = new(sampleRateHertz / 100);
    private readonly List<(long From, long To, double Size)> _found = [];
    private readonly List<(long Frame, double Size, double Ratio)> _breaks = [];
    private long _origin = -Block;
    private int _nextSub = Subs / 2;
    private long _after = -1;

    /// <summary>Breaks kept; beyond, sound is so broken that more say nothing new.</summary>
    public const int MostBreaks = 1000;

    /// <summary>Places where the sound before and after do not fit together.</summary>
    public IReadOnlyList<(long Frame, double Size, double Ratio)> Breaks => _breaks;

    /// <summary>Takes the next block.</summary>
    public void Add(ReadOnlySpan<float> block, long firstFrame)
    {
        Shift();
        _origin = firstFrame - Block;
        block.CopyTo(_samples.AsSpan(Block));
        _samples.AsSpan(Block + block.Length).Clear();
        for (var s = Subs / 2; s < Subs; s++)
            (_largest[s], _mean[s]) = FourthDifference.Of(_samples.AsSpan((s * Sub) - 4));
        var last = block.Length < Block ? (Block + block.Length) / Sub : Subs * 3 / 4;
        Examine(_nextSub, last);
        _nextSub = Math.Max(0, last - (Subs / 2));
    }

    /// <summary>The clicks found; the first 1000.</summary>
    public IReadOnlyList<(long From, long To, double Size)> Found => _found;

    /// <summary>Looks at what is left when the take ends.</summary>
    public void End()
    {
        if (_origin > -Block || _nextSub < Subs / 2)
            Examine(_nextSub + (Subs / 2), Subs);
        _nextSub = Subs / 2;
    }

    /// <summary>The clicks that the other channel does not have as well, unless it is a single sample: sound reaches both capsules.</summary>
    public SampleRuns Clicks(IReadOnlyList<(long From, long To, double Size)> other)
    {
        foreach (var c in _found)
        {
            if (c.To - c.From == 1 || !other.Any(o => Math.Abs(o.From - c.From) <= sampleRateHertz / 3000))
                _clicks.Add(c.From, c.To, c.Size);
        }

        return _clicks.ToRuns();
    }

    private void Keep(long from, long to, double size)
    {
        if (_found.Count < MostBreaks)
            _found.Add((from, to, size));
    }

    private void Shift()
    {
        _samples.AsSpan(Block, Block).CopyTo(_samples);
        _largest.AsSpan(Subs / 2).CopyTo(_largest);
        _mean.AsSpan(Subs / 2).CopyTo(_mean);
    }

    private void Examine(int from, int to)
    {
        var left = MostInABlock;
        for (var s = from; s < to && left > 0; s++)
        {
            if (!(_largest[s] > 6 * _mean[s]) || !(_largest[s] > 24 * scale.Step) || !(_largest[s] > 8 * Around(s)))
                continue;
            left--;
            Judge(s);
        }
    }

    /// <summary>The median of the mean magnitudes of the seven sub-blocks before and after.</summary>
    private float Around(int s)
    {
        Span<float> near = stackalloc float[14];
        var n = 0;
        for (var i = s - 8; i <= s + 8; i++)
        {
            if (Math.Abs(i - s) > 1 && i >= 0 && i < Subs)
                near[n++] = _mean[i];
        }

        near = near[..n];
        near.Sort();
        return near[n / 2];
    }

    private void Judge(int s)
    {
        var at = (s * Sub) - 2;
        for (var i = at; i < (s * Sub) + Sub - 2; i++)
        {
            if (FourthDifference.At(_samples, i) > FourthDifference.At(_samples, at))
                at = i;
        }

        var impulse = _judge.Judge(_samples.AsSpan(0, 2 * Block), at);
        var frame = _origin + impulse.From;
        // Neighbouring sub-blocks show the same click twice.
        if (impulse.Kind == ImpulseKind.Sound || frame < _after)
            return;
        _after = _origin + impulse.To + 12;
        if (impulse.Kind == ImpulseKind.Click)
            Keep(frame, _origin + impulse.To, impulse.Amplitude);
        else if (_breaks.Count < MostBreaks)
            _breaks.Add((frame, impulse.Amplitude, impulse.Ratio));
    }
}
