using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping;

/// <summary>A smooth line through points over the logarithm of frequency, level beyond the first and the last; never past its points.</summary>
/// <remarks>Cubic pieces with the slopes of F. N. Fritsch and J. Butland (1984, from memory): no overshoot between points.</remarks>
internal sealed class SmoothCurve
{
    private readonly double[] _places;
    private readonly double[] _values;
    private readonly double[] _slopes;

    public SmoothCurve(IReadOnlyList<CurvePoint> points)
    {
        _places = [.. points.Select(p => FixedExponential.Log(p.Hertz))];
        _values = [.. points.Select(p => p.Decibels)];
        _slopes = new double[points.Count];
        for (var k = 1; k < points.Count - 1; k++)
            _slopes[k] = Slope(k);
    }

    public double DecibelsAt(double hertz)
    {
        var place = FixedExponential.Log(hertz);
        if (place <= _places[0])
            return _values[0];
        if (place >= _places[^1])
            return _values[^1];
        var k = 0;
        while (place > _places[k + 1])
            k++;
        var width = _places[k + 1] - _places[k];
        var t = (place - _places[k]) / width;
        var u = 1 - t;
        return (_values[k] * u * u * (1 + (2 * t))) + (_values[k + 1] * t * t * (3 - (2 * t)))
            + (width * t * u * ((_slopes[k] * u) - (_slopes[k + 1] * t)));
    }

    // The harmonic mean of the slopes on both sides, weighted by distance; level at a peak or a dip.
    private double Slope(int k)
    {
        var (before, after) = (_places[k] - _places[k - 1], _places[k + 1] - _places[k]);
        var (left, right) = ((_values[k] - _values[k - 1]) / before, (_values[k + 1] - _values[k]) / after);
        if (left * right <= 0)
            return 0;
        var (a, b) = ((2 * after) + before, after + (2 * before));
        return (a + b) / ((a / left) + (b / right));
    }
}
