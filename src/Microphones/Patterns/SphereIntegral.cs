namespace Athwart.Microphones.Patterns;

/// <summary>Means over all directions, for patterns that have no closed form: composite Simpson over the angle off the axis.</summary>
internal static class SphereIntegral
{
    /// <summary>Quarter degrees: table angles on whole quarters fall on the joints of the rule, where a table has its kinks.</summary>
    private const int Intervals = 720;

    /// <summary>½·∫ f(θ)·sin θ dθ from 0 to π: the mean of f over the sphere; 1 for f = 1.</summary>
    public static double Mean(Func<double, double> f) => Between(f, 0, Math.PI, Intervals);

    /// <summary>½·∫ f(θ)·sin θ dθ over the rear half, π/2 to π; ½ for f = 1.</summary>
    public static double RearShare(Func<double, double> f) => Between(f, Math.PI / 2, Math.PI, Intervals / 2);

    /// <summary>The mean over the sphere of f(θ off one axis, θ′ off an axis turned 90° from it): Simpson in θ, even steps around.</summary>
    public static double MeanOfCrossed(Func<double, double, double> f)
    {
        const int Around = 48;
        const int CrossedIntervals = 90;
        return Between(theta => AroundMean(f, theta, Around), 0, Math.PI, CrossedIntervals);
    }

    private static double AroundMean(Func<double, double, double> f, double theta, int steps)
    {
        var sum = 0.0;
        for (var i = 0; i < steps; i++)
            sum += f(theta, Math.Acos(Math.Sin(theta) * Math.Cos((i + 0.5) * (2 * Math.PI / steps))));
        return sum / steps;
    }

    private static double Between(Func<double, double> f, double from, double to, int intervals)
    {
        var step = (to - from) / intervals;
        var sum = 0.0;
        for (var i = 0; i <= intervals; i++)
        {
            var weight = i == 0 || i == intervals ? 1 : i % 2 == 1 ? 4 : 2;
            var theta = from + (i * step);
            sum += weight * f(theta) * Math.Sin(theta);
        }

        return sum * step / 6;
    }
}
