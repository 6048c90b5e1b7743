using Athwart.Signals.FixedMath;
using Athwart.Signals.Shaping.Control;

namespace Athwart.Signals.Shaping;

/// <summary><see cref="MonoGuard"/> at work: the mid keeps its bits, the side is turned down where it has to be.</summary>
/// <remarks>
/// Energies are gathered in blocks of about 5 ms, and what each block of side may have is decided over all windows that touch it
/// (<see cref="GuardBudget"/>). That is spread ahead and averaged by a raised cosine (<see cref="GainSmoother"/>), which never rises above it,
/// and laid over the frames in straight lines. Constant time for each frame. Silence is taken to lie before and after the take. Rounding to a
/// word comes after the guard and is not watched by it.
/// </remarks>
public sealed class MonoGuardStage : IPairStage
{
    private readonly int _block;
    private readonly int _delay;
    private readonly BlockMemory _memory;
    private readonly GuardBudget _budget;
    private readonly GainSmoother _smoother;
    private long _number;
    private int _filled;
    private double _gain;
    private double _next;

    /// <summary>A guard for one decode.</summary>
    /// <param name="settings">The limit.</param>
    /// <param name="sampleRateHertz">Frames a second.</param>
    /// <param name="sideGain">g of the decode that follows, an amplitude ratio; the limit is one of mid and g·side.</param>
    public MonoGuardStage(MonoGuard settings, int sampleRateHertz, double sideGain)
    {
        ArgumentNullException.ThrowIfNull(settings);
        if (!double.IsFinite(sideGain))
            throw new ArgumentOutOfRangeException(nameof(sideGain), sideGain, "The side gain of the decode is a finite amplitude ratio, such as 1.");
        _block = BlockFramesAt(SettingsRules.Rate(sampleRateHertz));
        var window = (int)Math.Round(MonoGuard.WindowSeconds * sampleRateHertz / _block);
        var hold = (int)Math.Round(settings.HoldSeconds * sampleRateHertz / _block);
        SmoothingBlocks = Math.Max(2, (int)Math.Round(settings.SmoothingSeconds * sampleRateHertz / _block));
        WindowFrames = window * _block;
        _budget = new(window, hold, settings.HighestEnergyRatio, sideGain * sideGain);
        _smoother = new(SmoothingBlocks);
        _delay = hold + window + SmoothingBlocks + 1;
        _memory = new(_block, _delay + 1);
        Begin(0);
    }

    /// <summary>The frames of a window: 400 ms, exact at every rate of which it is a whole number of blocks, as it is at all usual ones.</summary>
    public int WindowFrames { get; }

    /// <summary>Frames between two values of the gain.</summary>
    public int BlockFrames => _block;

    /// <summary>Where to keep the gain for drawing; null for nowhere.</summary>
    public GainTrace? Trace { get; set; }

    /// <inheritdoc/>
    public int LatencyFrames => _delay * _block;

    /// <inheritdoc/>
    public long SettlingFrames => (_delay + 2L) * _block;

    /// <summary>Over how many blocks a change of the gain is spread.</summary>
    internal int SmoothingBlocks { get; }

    /// <inheritdoc/>
    public void Begin(long firstFrame)
    {
        _memory.Clear();
        _number = Floored.Quotient(firstFrame, _block);
        _filled = (int)Floored.Rest(firstFrame, _block);
        _budget.Begin(_number);
        _smoother.Begin();
        _gain = 1;
        _next = 1;
    }

    /// <inheritdoc/>
    public void Process(Span<double> mid, Span<double> side)
    {
        SettingsRules.SameLength(mid, side);
        for (var n = 0; n < mid.Length;)
        {
            var count = Math.Min(mid.Length - n, _block - _filled);
            Exchange(mid.Slice(n, count), side.Slice(n, count));
            n += count;
            _filled += count;
            if (_filled == _block)
                Complete();
        }
    }

    // The new frames go in, those of the oldest block come out, its side under the gain.
    private void Exchange(Span<double> mid, Span<double> side)
    {
        mid.CopyTo(_memory.Mid(_number)[_filled..]);
        side.CopyTo(_memory.Side(_number)[_filled..]);
        _memory.Mid(_number - _delay).Slice(_filled, mid.Length).CopyTo(mid);
        var source = _memory.Side(_number - _delay).Slice(_filled, side.Length);
        if (_gain == 1 && _next == 1)
        {
            source.CopyTo(side);
            return;
        }

        var slope = (_next - _gain) / _block;
        for (var n = 0; n < side.Length; n++)
            side[n] = source[n] * (_gain + (slope * (_filled + n)));
    }

    private void Complete()
    {
        Trace?.Note((_number - _delay) * _block, _block, Math.Min(_gain, _next));
        _gain = _next;
        _next = _smoother.Add(_budget.Add(_memory));
        _number++;
        _filled = 0;
    }

    // The divisor of 400 ms that is nearest to 5 ms; 5 ms where there is none near.
    private static int BlockFramesAt(int rate)
    {
        int window = (int)Math.Round(MonoGuard.WindowSeconds * rate), usual = rate / 200;
        for (var off = 0; off <= usual / 2; off++)
        {
            if (window % (usual - off) == 0)
                return usual - off;
            if (window % (usual + off) == 0)
                return usual + off;
        }

        return usual;
    }
}
