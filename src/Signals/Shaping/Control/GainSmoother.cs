using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping.Control;

/// <summary>Makes a smooth gain of allowed ones, never above what is allowed: the least over n + 1 blocks, averaged over n by a raised cosine.</summary>
/// <remarks>
/// The gain it gives is that at the border before the block which lies n − 1 blocks before the one taken in. It is not above what is allowed
/// to the blocks on either side of that border, so a straight line between borders is not either. It changes by at most 2/n a block.
/// </remarks>
internal sealed class GainSmoother
{
    private readonly SlidingMinimum _least;
    private readonly double[] _weights;
    private readonly double[] _recent;
    private int _place;

    /// <summary>A smoother over so many blocks, 2 or more.</summary>
    public GainSmoother(int length)
    {
        _least = new(length + 1);
        _weights = new double[length];
        _recent = new double[length];
        double sum = 0;
        for (var n = 0; n < length; n++)
        {
            var sine = FixedTrigonometry.SinPi((n + 0.5) / length);
            _weights[n] = sine * sine;
            sum += _weights[n];
        }

        for (var n = 0; n < length; n++)
            _weights[n] /= sum;
    }

    /// <summary>Starts anew: everything was allowed before.</summary>
    public void Begin()
    {
        _least.Begin();
        Array.Fill(_recent, 1);
        _place = 0;
    }

    /// <summary>Takes the gain allowed to the next block; exactly 1 as long as nothing else was allowed.</summary>
    public double Add(double allowed)
    {
        _recent[_place] = _least.Add(allowed);
        _place = _place + 1 == _recent.Length ? 0 : _place + 1;
        double sum = 0, lowest = 1;
        for (int n = 0, at = _place; n < _weights.Length; n++, at++)
        {
            if (at == _recent.Length)
                at = 0;
            sum += _weights[n] * _recent[at];
            lowest = Math.Min(lowest, _recent[at]);
        }

        return lowest == 1 ? 1 : sum;
    }
}
