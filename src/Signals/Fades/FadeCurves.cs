using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Fades;

/// <summary>Gains of fades, the same bits on every machine.</summary>
public static class FadeCurves
{
    private const double LogOfThousand = 6.907755278982137;

    /// <summary>The gain of one frame of a fade in; a fade out is the same backwards.</summary>
    /// <param name="curve">The shape.</param>
    /// <param name="frame">Frames into the fade, 0 up to, not including, <paramref name="length"/>.</param>
    /// <param name="length">Frames of the fade, 1 or more.</param>
    /// <returns>0 to 1: the curve at x = (frame + ½)/length, so that frame n of a fade in and of a fade out of one length share the sum 1 of x.</returns>
    public static double Gain(FadeCurve curve, long frame, long length)
    {
        // Doubled below, not halved above: x itself would be rounded, and the recipes of earlier versions were not made so.
        var x = (frame + 0.5) / (2.0 * length);
        switch (curve)
        {
            case FadeCurve.Linear:
                return 2 * x;
            case FadeCurve.ConstantPower:
                return FixedTrigonometry.SinPi(x);
            case FadeCurve.Exponential:
                return (Exponential(LogOfThousand * ((2 * x) - 1)) - 0.001) / 0.999;
            default:
                var sine = FixedTrigonometry.SinPi(x);
                return sine * sine;
        }
    }

    // e^y for −7 ≤ y ≤ 0: a Taylor series for a sixteenth of it, whose first term left out is below 1e-18, squared four times.
    private static double Exponential(double y)
    {
        var part = y / 16;
        var sum = 1.0;
        for (var n = 14; n >= 1; n--)
            sum = 1 + (part / n * sum);
        for (var i = 0; i < 4; i++)
            sum *= sum;
        return sum;
    }
}
