namespace Athwart.Signals.FixedMath;

/// <summary>The Kaiser window, from additions, multiplications, divisions and square roots alone.</summary>
/// <remarks>Source: J. F. Kaiser's design formulas for windowed filters, from memory; the responses they give are measured in the tests.</remarks>
public static class KaiserWindow
{
    /// <summary>The shape parameter β for a stop band this many decibels down; valid from 50 dB.</summary>
    public static double Beta(double attenuationDecibels) => 0.1102 * (attenuationDecibels - 8.7);

    /// <summary>The filter length in samples for a stop band this far down and a transition this wide, as a part of the sampling rate.</summary>
    public static double Length(double attenuationDecibels, double transitionOfRate) => (attenuationDecibels - 7.95) / (14.36 * transitionOfRate);

    /// <summary>The window at a place: 1 in the centre (0), 0 outside −1..1.</summary>
    public static double At(double place, double beta)
    {
        var inside = 1 - (place * place);
        return inside < 0 ? 0 : BesselI0(beta * Math.Sqrt(inside)) / BesselI0(beta);
    }

    /// <summary>The modified Bessel function of the first kind, order zero, by its power series; for 0 ≤ x ≤ 40.</summary>
    public static double BesselI0(double x)
    {
        var quarterSquare = x * x / 4;
        double sum = 1, term = 1;
        for (var n = 1; n < 200 && term > sum * 1e-18; n++)
        {
            term *= quarterSquare / ((double)n * n);
            sum += term;
        }

        return sum;
    }
}
