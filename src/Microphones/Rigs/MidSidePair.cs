using Athwart.Microphones.Patterns;
using Athwart.Quantities;

namespace Athwart.Microphones.Rigs;

/// <summary>A mid and a figure-8 side turned 90 degrees to the left, in one place: left = mid + side, right = mid − side.</summary>
/// <param name="Mid">Points ahead, azimuth 0.</param>
/// <param name="Side">Its positive lobe points to the left. Whether it is fit for that: <see cref="SideFitness"/>.</param>
/// <param name="SideLevel">Side against mid, gS/gM, after sensitivities and gains are matched; −∞ is no side.</param>
/// <param name="MidTrim">gM, the gain of both before the sum; 0 dB leaves the mid as it is.</param>
/// <remarks>Sources lie in the horizontal plane. Source: the elementary matrix, see docs/sources.md (relation of L, R, M, S).</remarks>
public sealed record MidSidePair(IPattern Mid, IPattern Side, Decibels SideLevel, Decibels MidTrim = default)
{
    /// <summary>A pair with an ideal figure-8 as side.</summary>
    public static MidSidePair WithFigureEight(IPattern mid, Decibels sideLevel) => new(mid, FirstOrderPattern.FigureEight, sideLevel);

    /// <summary>gM·M(θ), an amplitude ratio with sign.</summary>
    public double MidGain(Degrees azimuth, Hertz frequency) => MidTrim.AmplitudeRatio * Mid.Gain(azimuth.Radians, frequency.Value);

    /// <summary>gS·S(θ): the side as it enters the sum; positive to the left.</summary>
    public double SideGain(Degrees azimuth, Hertz frequency) => SideAmplitude * SideUnit(azimuth.Radians, frequency.Value);

    /// <summary>mid + side.</summary>
    public double LeftGain(Degrees azimuth, Hertz frequency) => MidGain(azimuth, frequency) + SideGain(azimuth, frequency);

    /// <summary>mid − side.</summary>
    public double RightGain(Degrees azimuth, Hertz frequency) => MidGain(azimuth, frequency) - SideGain(azimuth, frequency);

    /// <summary>Left against right in decibels, signs aside; +∞ when only the left hears, null when neither does.</summary>
    public Decibels? LevelDifference(Degrees azimuth, Hertz frequency)
    {
        var (left, right) = (LeftGain(azimuth, frequency), RightGain(azimuth, frequency));
        return (left, right) switch
        {
            (0, 0) => null,
            (_, 0) => new(double.PositiveInfinity),
            _ => Decibels.FromAmplitudeRatio(left / right),
        };
    }

    /// <summary>gS = gM · side level.</summary>
    internal double SideAmplitude => (MidTrim + SideLevel).AmplitudeRatio;

    /// <summary>Whether both are first order and the side is an exact figure-8, so that closed forms hold.</summary>
    internal bool IsFirstOrder => Mid is FirstOrderPattern && Side is FirstOrderPattern { OmniShare: 0 };

    internal double SideUnit(double azimuthRadians, double hertz)
        => Side is FirstOrderPattern { OmniShare: 0 } ? Math.Sin(azimuthRadians) : Side.Gain(azimuthRadians - (Math.PI / 2), hertz);
}
