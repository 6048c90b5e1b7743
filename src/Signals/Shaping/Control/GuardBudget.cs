using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping.Control;

/// <summary>How much gain each block of side may have so that no window of N blocks' length, wherever it starts, holds more side than its mid allows.</summary>
/// <remarks>
/// With b = limit·mid² and e = (g·side)², frame by frame, a window keeps the limit when Σ(b − gain²·e) ≥ 0. Windows that start within block c
/// have a tail of it, the blocks c + 1 … c + N − 1 and a head of c + N. A <em>safe</em> block has Σ(b − e) ≥ 0 and passes in full; the others,
/// and those within <c>hold</c> blocks of them, are watched. Of the whole blocks, what is left of the mid is left = Σ b of the watched +
/// Σ(b − e) of the safe; what the watched hold is held = Σ e. The parts at the edges may cost a quarter of what is left each: a part whose
/// worst excess Σ(e − b) is below that is charged with it; a block with a worse part is watched from there on, and its gain² capped so that no
/// head (or tail) of it costs more. Then gain² ≤ (left − charges)/held for every watched block of the window keeps the limit, for
/// Σ(R·e − b) ≤ R·Σ(e − b) wherever R ≤ 1, and a lower gain keeps it too. Sums are kept without subtraction, and the limit is taken a
/// millionth lower than stated, far more than all rounding. Source: derived.
/// </remarks>
internal sealed class GuardBudget(int window, int hold, double limit, double sideEnergyGain)
{
    private const double Margin = 1e-6;
    private const double EdgeShare = 0.25;
    private readonly double _limit = limit * (1 - Margin);
    private readonly GuardBlock[] _blocks = new GuardBlock[hold + window + 2];
    private readonly SlidingSum _left = new(window - 1);
    private readonly SlidingSum _held = new(window - 1);
    private readonly SlidingMinimum _least = new(window + 1);
    private long _number;
    private long _lastUnsafe;
    private long _lastCapped;

    /// <summary>Starts anew: silence before, and the next block has this number.</summary>
    public void Begin(long number)
    {
        Array.Clear(_blocks);
        _left.Begin(number - hold);
        _held.Begin(number - hold);
        _least.Begin();
        _number = number;
        _lastUnsafe = long.MinValue / 2;
        _lastCapped = long.MinValue / 2;
    }

    /// <summary>Takes the newest block of a memory and gives the gain allowed to the one <c>window + hold</c> blocks before it, 0 to 1.</summary>
    public double Add(BlockMemory memory)
    {
        ref var newest = ref At(_number);
        newest = GuardBlock.Of(memory.Mid(_number), memory.Side(_number), _limit, sideEnergyGain);
        if (newest.Surplus < 0)
            _lastUnsafe = _number;
        var judged = _number - hold;
        var first = judged - window;
        _number++;
        ref var head = ref At(judged);
        ref var tail = ref At(first);
        head.IsWatched = Math.Max(_lastUnsafe, _lastCapped) >= judged - hold;
        var least = _least.Add(Math.Sqrt(Ratio(memory, ref head, judged, ref tail, first)));
        _left.Add(head.IsWatched ? head.Budget : head.Surplus);
        _held.Add(head.IsWatched ? head.Energy : 0);
        return tail.IsWatched ? least : 1;
    }

    // The gain² allowed to the watched blocks of the windows that start within the first block and end within the judged one.
    private double Ratio(BlockMemory memory, ref GuardBlock head, long judged, ref GuardBlock tail, long first)
    {
        double left = _left.Value, held = _held.Value, share = left * EdgeShare, charges = 0, cap = 1;
        if (head.HeadExcess > share)
        {
            cap = GuardBlock.HeadCap(memory.Mid(judged), memory.Side(judged), _limit, sideEnergyGain, share);
            head.IsWatched = true;
            _lastCapped = judged;
        }

        if (tail.TailExcess > share)
        {
            cap = Math.Min(cap, GuardBlock.TailCap(memory.Mid(first), memory.Side(first), _limit, sideEnergyGain, share));
            tail.IsWatched = true;
        }

        charges += Math.Min(share, head.HeadExcess) + Math.Min(share, tail.TailExcess);
        var rest = left - charges;
        return held <= rest ? cap : Math.Min(cap, rest / held);
    }

    private ref GuardBlock At(long number) => ref _blocks[(int)Floored.Rest(number, _blocks.Length)];
}
