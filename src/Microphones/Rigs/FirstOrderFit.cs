using Athwart.Microphones.Patterns;
using Athwart.Quantities;

namespace Athwart.Microphones.Rigs;

/// <summary>Mid ≈ A + B·cos θ and side ≈ C·cos θ′ with C the side's lobe: exact for first order, least squares over the sphere else.</summary>
/// <param name="A">Omni part of the mid.</param>
/// <param name="B">Figure-8 part of the mid; A + B is 1 for first order, near it for a measured mid.</param>
/// <param name="C">Figure-8 part of the side, 1 for a true figure-8.</param>
/// <param name="WorstError">Largest amplitude by which the fitted mid differs from the mid; 0 for first order.</param>
internal readonly record struct FirstOrderFit(double A, double B, double C, double WorstError)
{
    public static FirstOrderFit Of(IPattern mid, IPattern side, Hertz frequency)
    {
        ArgumentNullException.ThrowIfNull(mid);
        ArgumentNullException.ThrowIfNull(side);
        var (a, b) = Parts(mid, frequency.Value);
        var (_, c) = Parts(side, frequency.Value);
        var worst = mid is FirstOrderPattern ? 0 : Enumerable.Range(0, 181)
            .Max(i => Math.Abs(mid.Gain(i * Math.PI / 180, frequency.Value) - a - (b * Math.Cos(i * Math.PI / 180))));
        return new(a, b, c, worst);
    }

    private static (double Omni, double Eight) Parts(IPattern pattern, double hertz) => pattern is FirstOrderPattern first
        ? (first.OmniShare, first.FigureEightShare)
        : (SphereIntegral.Mean(theta => pattern.Gain(theta, hertz)), 3 * SphereIntegral.Mean(theta => pattern.Gain(theta, hertz) * Math.Cos(theta)));
}
