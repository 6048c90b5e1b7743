using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping.Control;

/// <summary>The sum of the last n values, none of them below 0, in constant time and without ever subtracting.</summary>
/// <remarks>
/// What is added and later subtracted leaves a rounding error behind that a quiet passage after a loud one is lost in. Here the values lie in
/// groups of n on a fixed grid: the sum is the tail of one group and the head of the next, each summed from its own values. Errors stay
/// relative, and the bits do not depend on where the counting began.
/// </remarks>
internal sealed class SlidingSum(int length)
{
    private readonly double[] _group = new double[length];
    private readonly double[] _tails = new double[length + 1];
    private double _head;
    private int _filled;

    /// <summary>Starts anew: everything before is 0 and the next value has this number.</summary>
    public void Begin(long index)
    {
        Array.Clear(_group);
        Array.Clear(_tails);
        _head = 0;
        _filled = (int)Floored.Rest(index, length);
    }

    /// <summary>The sum of the last n values.</summary>
    public double Value => _tails[_filled] + _head;

    /// <summary>Takes the next value.</summary>
    public void Add(double value)
    {
        _group[_filled++] = value;
        _head += value;
        if (_filled < length)
            return;
        for (var n = length - 1; n >= 0; n--)
            _tails[n] = _group[n] + _tails[n + 1];
        _head = 0;
        _filled = 0;
    }
}
