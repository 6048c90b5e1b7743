namespace Athwart.Jobs.Demo;

/// <summary>A second-order filter with low, band and high outputs that may be tuned while it runs.</summary>
/// <remarks>Trapezoidal integrators, g = tan(π·f/rate), k = 1/q: stable for any tuning between 0 and half the rate.</remarks>
internal sealed class StateVariableFilter
{
    private readonly int _rate;
    private double _k, _a1, _a2, _a3, _s1, _s2;

    public StateVariableFilter(int rate, double hertz, double q)
    {
        _rate = rate;
        Tune(hertz, q);
    }

    /// <summary>What is below the tuning.</summary>
    public double Low { get; private set; }

    /// <summary>What is around the tuning, 0 dB at its centre.</summary>
    public double Band { get; private set; }

    /// <summary>What is above the tuning.</summary>
    public double High { get; private set; }

    public void Tune(double hertz, double q)
    {
        var turns = Math.Min(hertz / _rate, 0.49) / 2;
        var g = DemoMath.Sine(turns) / DemoMath.Cosine(turns);
        _k = 1 / q;
        _a1 = 1 / (1 + (g * (g + _k)));
        _a2 = g * _a1;
        _a3 = g * _a2;
    }

    /// <summary>Takes one sample and returns the band output.</summary>
    public double Step(double x)
    {
        var v3 = x - _s2;
        var v1 = (_a1 * _s1) + (_a2 * v3);
        var v2 = _s2 + (_a2 * _s1) + (_a3 * v3);
        _s1 = (2 * v1) - _s1;
        _s2 = (2 * v2) - _s2;
        Low = v2;
        Band = _k * v1;
        High = x - Band - v2;
        return Band;
    }
}
