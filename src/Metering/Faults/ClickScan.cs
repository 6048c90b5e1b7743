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
    private readonly List<(long Frame, double Size, double Ratio)> _breaks = [];
    private long _origin = -Block;
    private int _nextSub = Subs / 2;
    private long _after = -1;
    private int _count;

    // 20 ms to each side: the pulses of a voice or an engine come closer.
    private readonly int _reach = Math.Clamp(sampleRateHertz / 50 / Sub, 8, (Subs / 4) - 1);

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
        _count = block.Length;
    }

    /// <summary>Looks at what has context on both sides now; the other channel has taken the same block.</summary>
    public void Look(ClickScan other)
    {
        var last = _count < Block ? (Block + _count) / Sub : Subs * 3 / 4;
        Examine(_nextSub, last, other);
        _nextSub = Math.Max(0, last - (Subs / 2));
    }

    /// <summary>Looks at what is left when the take ends.</summary>
    public void End(ClickScan other)
    {
        if (_origin > -Block || _nextSub < Subs / 2)
            Examine(_nextSub + (Subs / 2), Subs, other);
        _nextSub = Subs / 2;
    }

    /// <summary>The clicks.</summary>
    public SampleRuns Clicks => _clicks.ToRuns();

    private void Shift()
    {
        _samples.AsSpan(Block, Block).CopyTo(_samples);
        _largest.AsSpan(Subs / 2).CopyTo(_largest);
        _mean.AsSpan(Subs / 2).CopyTo(_mean);
    }

    private void Examine(int from, int to, ClickScan other)
    {
        var left = MostInABlock;
        for (var s = from; s < to && left > 0; s++)
        {
            if (!(_largest[s] > 6 * _mean[s]) || !(_largest[s] > 24 * scale.Step) || !(_largest[s] > 8 * Around(s)) || !StandsAlone(s))
                continue;
            left--;
            Judge(s, other);
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

    /// <summary>Whether nothing within 20 ms is as sharp: a voice and an engine have a pulse in each period.</summary>
    private bool StandsAlone(int s)
    {
        for (var i = Math.Max(0, s - _reach); i <= Math.Min(Subs - 1, s + _reach); i++)
        {
            if (Math.Abs(i - s) > 1 && _largest[i] * 2.5f > _largest[s])
                return false;
        }

        return true;
    }

    /// <summary>Whether this channel is sharp at a place too: sound reaches both capsules, up to 10 cm apart.</summary>
    private bool IsSharpAt(int at)
    {
        var s = at / Sub;
        var reach = Math.Max(4, sampleRateHertz / 3000);
        var most = 0f;
        for (var i = Math.Max(2, at - reach); i < Math.Min((2 * Block) - 2, at + reach); i++)
            most = MathF.Max(most, FourthDifference.At(_samples, i));
        return most > 5 * Around(s);
    }

    private void Judge(int s, ClickScan other)
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
        if (impulse.Kind == ImpulseKind.Click && (impulse.To - impulse.From == 1 || !other.IsSharpAt(at)))
            _clicks.Add(frame, _origin + impulse.To, impulse.Amplitude);
        else if (impulse.Kind == ImpulseKind.Break && _breaks.Count < MostBreaks)
            _breaks.Add((frame, impulse.Amplitude, impulse.Ratio));
    }
}
