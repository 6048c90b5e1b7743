using Athwart.Microphones.Patterns;
using Athwart.Quantities;

namespace Athwart.Microphones.Rigs;

/// <summary>The crossed pair of equal microphones that would hear as the decoded left and right do.</summary>
/// <param name="IncludedAngle">2φ between their axes, φ = atan2(gS, gM·B); 0 to 180 degrees while the mid hears ahead.</param>
/// <param name="OmniShare">a′ = gM·A/(gM·A + R), R = √((gM·B)² + gS²): 0 crossed figure-8s, 0.5 cardioids.</param>
/// <param name="Null">Off the axis of each, acos(−gM·A/R); null when they have none.</param>
/// <param name="OnAxisGain">gM·A + R against the mid's own axis.</param>
/// <param name="FitError">0 when exact; for a measured mid the largest amplitude by which its nearest first-order pattern differs from it.</param>
/// <remarks>Source: derived; that every mid-side pair has an equal crossed pair: Hauer 2019 (abstract); see docs/sources.md.</remarks>
public sealed record VirtualPair(Degrees IncludedAngle, double OmniShare, Degrees? Null, Decibels OnAxisGain, double FitError)
{
    /// <summary>The pair a mid-side pair is equal to; for a measured mid or side that of its nearest first-order pattern at the frequency.</summary>
    public static VirtualPair Of(MidSidePair pair, Hertz frequency)
    {
        ArgumentNullException.ThrowIfNull(pair);
        var fit = FirstOrderFit.Of(pair.Mid, pair.Side, frequency);
        return From(fit, pair.MidTrim.AmplitudeRatio, pair.SideAmplitude);
    }

    /// <summary>The virtual pattern by name or share.</summary>
    public FirstOrderPattern Pattern => new(Math.Clamp(OmniShare, 0, 1));

    internal static VirtualPair From(FirstOrderFit fit, double midGain, double sideGain)
    {
        var omni = midGain * fit.A;
        var radius = Math.Sqrt(Square(midGain * fit.B) + Square(sideGain * fit.C));
        var phi = radius == 0 ? 0 : Math.Atan2(sideGain * fit.C, midGain * fit.B);
        return new(
            Degrees.FromRadians(2 * phi),
            omni / (omni + radius),
            radius > 0 && Math.Abs(omni) <= radius * (1 + 1e-12) ? Degrees.FromRadians(Math.Acos(Math.Clamp(-omni / radius, -1, 1))) : null,
            Decibels.FromAmplitudeRatio(omni + radius),
            fit.WorstError);
    }

    private static double Square(double value) => value * value;
}
