using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Metering.Faults;

/// <summary>
/// Finds blocks that were written twice: both channels equal, sample for sample, to what came 64 to 16384 frames before.
/// </summary>
/// <remarks>
/// A key is made of every three frames of both channels. One key of 32, chosen by its own top bits, is remembered with its
/// place; where a key comes back, the samples are compared. So the work does not depend on how many distances are possible.
/// A tone of a whole number of samples repeats all the time: what goes on for more than four times its distance is no repeated block.
/// </remarks>
internal sealed class RepeatScan
{
    internal const int Shortest = 64;
    private const int TableSize = 4096;
    private const uint Chosen = 0xF800_0000;
    private readonly uint[] _keys = new uint[TableSize];
    private readonly long[] _places = new long[TableSize];
    private readonly List<(long From, long To, int Lag)> _found = [];
    private (long From, int Lag) _open;
    private long _checkedTo;

    /// <summary>The copies, in order, at most 1000: from, to, and how many frames before lies the original.</summary>
    public IReadOnlyList<(long From, long To, int Lag)> Found => _found;

    /// <summary>Takes the block that was added to the history.</summary>
    public void Scan(PairHistory history)
    {
        var mid = history.Mid;
        var side = history.Side;
        var at = PairHistory.Past;
        if (_open.Lag > 0)
            at = Follow(history, at);
        // The last two frames of the block wait for the next, which sees them again.
        at = Math.Max(at - 2, history.First);
        while (at + 2 < mid.Length)
        {
            var next = NextKey(mid, side, at, out var key);
            if (next < 0)
                break;
            at = Meet(history, next, key);
        }
    }

    /// <summary>Ends the take.</summary>
    public void Complete(long frames)
    {
        if (_open.Lag > 0)
            Close(frames);
    }

    private int Meet(PairHistory history, int at, uint key)
    {
        var slot = (int)((key >> 8) & (TableSize - 1));
        var frame = history.Origin + at;
        var lag = frame - _places[slot];
        var known = _keys[slot] == key && lag is >= Shortest and <= PairHistory.Past - 3 && frame >= _checkedTo;
        (_keys[slot], _places[slot]) = (key, frame);
        if (!known || at - lag < history.First || !Equal(history, at, (int)lag))
            return at + 1;
        var from = at;
        while (from - 1 - lag >= history.First && history.Origin + from > _checkedTo && Equal(history, from - 1, (int)lag))
            from--;
        _open = (history.Origin + from, (int)lag);
        return Math.Max(at + 1, Follow(history, at));
    }

    /// <summary>Follows the open copy; returns the first frame that is not part of it.</summary>
    private int Follow(PairHistory history, int at)
    {
        var end = history.Mid.Length;
        while (at < end && Equal(history, at, _open.Lag))
            at++;
        if (at == end)
            return at;
        if (Informs(history, at))
            Close(history.Origin + at);
        _checkedTo = history.Origin + at;
        _open = default;
        return at;
    }

    private void Close(long to)
    {
        var length = to - _open.From;
        if (length >= Shortest && length <= 4L * _open.Lag && _found.Count < 1000)
            _found.Add((_open.From, to, _open.Lag));
        _open = default;
    }

    /// <summary>Whether the copy has enough different samples: a stretch of zeros or of one value is equal to any other.</summary>
    private static bool Informs(PairHistory history, int to)
    {
        var mid = history.Mid;
        var side = history.Side;
        var changes = 0;
        for (var i = Math.Max(1, to - Shortest); i < to; i++)
            changes += mid[i] != mid[i - 1] && side[i] != side[i - 1] ? 1 : 0;
        return changes >= Shortest / 2;
    }

    private static bool Equal(PairHistory history, int at, int lag) =>
        history.Mid[at] == history.Mid[at - lag] && history.Side[at] == history.Side[at - lag];

    /// <summary>The first chosen key from a place on; −1 when there is none.</summary>
    private static int NextKey(ReadOnlySpan<float> mid, ReadOnlySpan<float> side, int at, out uint key)
    {
        var m = MemoryMarshal.Cast<float, uint>(mid);
        var s = MemoryMarshal.Cast<float, uint>(side);
        if (Vector256.IsHardwareAccelerated)
        {
            ref var p = ref MemoryMarshal.GetReference(m);
            ref var q = ref MemoryMarshal.GetReference(s);
            for (; at + 10 <= m.Length; at += 8)
            {
                var keys = (Vector256.LoadUnsafe(ref p, (nuint)at) * 0x9E37_79B1u) + (Vector256.LoadUnsafe(ref q, (nuint)at) * 0x85EB_CA77u)
                    + (Vector256.LoadUnsafe(ref p, (nuint)at + 1) * 0xC2B2_AE3Du) + (Vector256.LoadUnsafe(ref q, (nuint)at + 1) * 0x27D4_EB2Fu)
                    + (Vector256.LoadUnsafe(ref p, (nuint)at + 2) * 0x1656_67B1u) + (Vector256.LoadUnsafe(ref q, (nuint)at + 2) * 0xD3A2_646Du);
                var chosen = Vector256.Equals(keys & Vector256.Create(Chosen), Vector256<uint>.Zero).ExtractMostSignificantBits();
                if (chosen == 0)
                    continue;
                var lane = BitOperations.TrailingZeroCount(chosen);
                key = keys[lane];
                return at + lane;
            }
        }

        for (; at + 2 < m.Length; at++)
        {
            key = (m[at] * 0x9E37_79B1u) + (s[at] * 0x85EB_CA77u) + (m[at + 1] * 0xC2B2_AE3Du) + (s[at + 1] * 0x27D4_EB2Fu) + (m[at + 2] * 0x1656_67B1u) + (s[at + 2] * 0xD3A2_646Du);
            if ((key & Chosen) == 0)
                return at;
        }

        key = 0;
        return -1;
    }
}
