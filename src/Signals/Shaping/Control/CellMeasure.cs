using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping.Control;

/// <summary>Level, brightness or pitch of a channel, cell by cell.</summary>
/// <remarks>
/// Brightness and pitch look back over 16 cells of about 2 ms, for a cell alone holds less than a wave of a low sound: their sums are kept as
/// a ring and added up in one fixed order. Brightness from mean squares of the frames, P, and of their differences, D: a sine of f has
/// D/P = 4·sin²(πf/rate). Below −100 dBFS neither is told.
/// </remarks>
internal sealed class CellMeasure(FollowedQuantity quantity, int rate, int cell)
{
    private const int Cells = 16;
    private const double Quiet = 1e-10;
    private readonly double[] _powers = new double[Cells];
    private readonly double[] _seconds = new double[Cells];
    private int _place;
    private double _power;
    private double _second;
    private double _last;

    /// <summary>Frames that a value looks back over.</summary>
    public long SettlingFrames => (Cells + 1L) * cell;

    /// <summary>Forgets everything.</summary>
    public void Begin()
    {
        Array.Clear(_powers);
        Array.Clear(_seconds);
        (_place, _power, _second, _last) = (0, 0, 0, 0);
    }

    /// <summary>Takes the next frames of the cell.</summary>
    public void Add(ReadOnlySpan<double> samples)
    {
        foreach (var sample in samples)
        {
            _power += sample * sample;
            if (quantity == FollowedQuantity.Brightness)
                _second += (sample - _last) * (sample - _last);
            else if (_last < 0 && sample >= 0)
                _second++;
            _last = sample;
        }
    }

    /// <summary>Ends the cell: dBFS or hertz, null where nothing can be told.</summary>
    public double? Complete()
    {
        _powers[_place] = _power;
        _seconds[_place] = _second;
        var level = _power / cell;
        (_power, _second, _place) = (0, 0, (_place + 1) % Cells);
        if (quantity == FollowedQuantity.Level)
            return level > 0 ? Math.Max(-400, FixedExponential.Decibels(Math.Sqrt(level))) : -400;
        double power = 0, second = 0;
        for (int n = 0, at = _place; n < Cells; n++, at = (at + 1) % Cells)
        {
            power += _powers[at];
            second += _seconds[at];
        }

        if (!(power > Quiet * Cells * cell) || second == 0)
            return null;
        return quantity == FollowedQuantity.Pitch ? second * rate / (Cells * cell) : rate / Math.PI * ArcSine(Math.Min(1, Math.Sqrt(second / power) / 2));
    }

    // asin x for 0 ≤ x ≤ 1 by halving the angle until the series is short: asin x = 2·asin(x/√(2·(1 + √(1 − x²)))).
    private static double ArcSine(double x)
    {
        var doublings = 1.0;
        while (x > 0.1)
        {
            x /= Math.Sqrt(2 * (1 + Math.Sqrt(1 - (x * x))));
            doublings *= 2;
        }

        double square = x * x;
        return doublings * x * (1 + (square * ((1.0 / 6) + (square * ((3.0 / 40) + (square * ((15.0 / 336) + (square * ((105.0 / 3456) + (square * (945.0 / 42_240)))))))))));
    }
}
