namespace Athwart.Jobs.Demo;

/// <summary>Noise that falls with frequency: power ∝ 1/f^(2·slope), from a ladder of first-order low-passes two octaves apart.</summary>
/// <remarks>Slope 0.5 is pink; 0.75 sounds like a far weir; 1 like a rumble. Power is near 1.</remarks>
internal sealed class SlopedNoise
{
    private const double LowestHertz = 25;
    private const int Rungs = 6;
    private readonly DemoRandom _random;
    private readonly double[] _keep = new double[Rungs];
    private readonly double[] _weight = new double[Rungs];
    private readonly double[] _state = new double[Rungs];

    public SlopedNoise(int rate, double slope, DemoRandom random)
    {
        _random = random;
        var step = DemoMath.Exponential(-slope * 1.3862943611198906);
        var (hertz, weight) = (LowestHertz, 1.0);
        for (var i = 0; i < Rungs; i++, hertz *= 4, weight *= step)
        {
            _keep[i] = DemoMath.Exponential(-6.283185307179586 * Math.Min(hertz, rate / 2.5) / rate);
            _weight[i] = weight;
        }

        Scale();
    }

    /// <summary>The next sample.</summary>
    public double Next()
    {
        var white = _random.White();
        var sum = 0.0;
        for (var i = 0; i < Rungs; i++)
        {
            _state[i] = white + (_keep[i] * (_state[i] - white));
            sum += _weight[i] * _state[i];
        }

        return sum;
    }

    /// <summary>Brings the power to 1: two low-passes of one white share (1−a)(1−b)/(1−ab) of its power.</summary>
    private void Scale()
    {
        var power = 0.0;
        for (var i = 0; i < Rungs; i++)
        {
            for (var j = 0; j < Rungs; j++)
                power += _weight[i] * _weight[j] * (1 - _keep[i]) * (1 - _keep[j]) / (1 - (_keep[i] * _keep[j]));
        }

        var gain = 1 / Math.Sqrt(power);
        for (var i = 0; i < Rungs; i++)
            _weight[i] *= gain;
    }
}
