using Athwart.Microphones.Patterns;
using Athwart.Quantities;

namespace Athwart.Microphones.Rigs;

/// <summary>What a pair makes of sound that comes from everywhere alike, against an omni of the mid's sensitivity.</summary>
/// <param name="MidPower">Mean of gM²·M² over the sphere; gM²·(A² + B²/3) for first order.</param>
/// <param name="SidePower">Mean of gS²·S²; gS²/3 for a figure-8.</param>
/// <param name="CrossPower">Mean of gM·M·gS·S; 0 for a true figure-8.</param>
/// <param name="Correlation">Of left and right, −1 to 1: (M² − S²)/(M² + S²) for a true figure-8; null when both are silent.</param>
/// <param name="Mid">The mid alone.</param>
/// <param name="Left">The decoded left towards its own axis; the right is its mirror image. A measured mid is taken by its nearest first-order pattern.</param>
/// <param name="RearShare">Share of the energy of left and right together that comes from behind, 0 to 1.</param>
/// <param name="LevelAt180">Left and right together for a sound straight behind, against straight ahead.</param>
/// <remarks>Source: diffuse-field correlation by integration over an isotropic field, derived; directivity index IEC 60268-4:2014, 13.2.2; see docs/sources.md.</remarks>
public sealed record DiffuseField(
    double MidPower,
    double SidePower,
    double CrossPower,
    double? Correlation,
    Directivity Mid,
    Directivity Left,
    double RearShare,
    Decibels LevelAt180)
{
    /// <summary>Closed form for first order, numeric over the sphere otherwise.</summary>
    public static DiffuseField Of(MidSidePair pair, Hertz frequency)
    {
        ArgumentNullException.ThrowIfNull(pair);
        var (gM, gS, hertz) = (pair.MidTrim.AmplitudeRatio, pair.SideAmplitude, frequency.Value);
        var mid = gM * gM * PatternFigures.DiffusePower(pair.Mid, frequency);
        var side = gS * gS * PatternFigures.DiffusePower(pair.Side, frequency);
        var cross = gM * gS * Cross(pair, hertz);
        var virtualPair = VirtualPair.Of(pair, frequency);
        var figures = PatternFigures.Of(pair.Mid, frequency);
        var rear = (gM * gM * figures.RearShare * figures.RandomEnergyEfficiency) + (side * SideRearShare);
        return new(
            mid,
            side,
            cross,
            CorrelationOf(mid, side, cross),
            new Directivity(Decibels.FromPowerRatio(gM * gM / mid)),
            new Directivity(virtualPair.OnAxisGain - Decibels.FromPowerRatio(mid + side + (2 * cross))),
            rear / (mid + side),
            Behind(pair, figures, frequency));
    }

    /// <summary>(M² − S²)/(M² + S²) for a first-order mid of omni share A and a figure-8 at gS/gM: for searches over many.</summary>
    public static double CorrelationOfFirstOrder(double omniShare, double sideGain)
    {
        var mid = (omniShare * omniShare) + ((1 - omniShare) * (1 - omniShare) / 3);
        return CorrelationOf(mid, sideGain * sideGain / 3, 0) ?? 0;
    }

    /// <summary>
    /// How far a sound at an azimuth stands above the diffuse field in left and right together, against an omni in the same place:
    /// 10·lg((L² + R²)/(mean of L² + R²)).
    /// </summary>
    public Decibels DirectToDiffuse(MidSidePair pair, Degrees azimuth, Hertz frequency)
        => Decibels.FromPowerRatio(Energy(pair, azimuth, frequency) / (2 * (MidPower + SidePower)));

    /// <summary>A side looks to both sides, so half of what it gathers comes from behind.</summary>
    private const double SideRearShare = 0.5;

    private static double? CorrelationOf(double mid, double side, double cross)
    {
        var scale = Math.Sqrt(Math.Max(0, Square(mid + side) - (4 * cross * cross)));
        return scale == 0 ? null : (mid - side) / scale;
    }

    private static double Cross(MidSidePair pair, double hertz) => pair.Side is FirstOrderPattern { OmniShare: 0 } ? 0
        : SphereIntegral.MeanOfCrossed((midAngle, sideAngle) => pair.Mid.Gain(midAngle, hertz) * pair.Side.Gain(sideAngle, hertz));

    /// <summary>A true figure-8 is deaf ahead and behind, so the mid's own figure holds, exact in a null.</summary>
    private static Decibels Behind(MidSidePair pair, PatternFigures mid, Hertz frequency) => pair.Side is FirstOrderPattern { OmniShare: 0 }
        ? mid.LevelAt180
        : Decibels.FromPowerRatio(Energy(pair, new(180), frequency) / Energy(pair, default, frequency));

    private static double Energy(MidSidePair pair, Degrees azimuth, Hertz frequency)
        => Square(pair.LeftGain(azimuth, frequency)) + Square(pair.RightGain(azimuth, frequency));

    private static double Square(double value) => value * value;
}

/// <summary>How much a microphone prefers its axis to all around.</summary>
/// <param name="Index">Directivity index in decibels, also the direct-to-diffuse ratio on the axis against an omni.</param>
public readonly record struct Directivity(Decibels Index)
{
    /// <summary>How much farther away than an omni for the same share of room, 10^(DI/20).</summary>
    public double DistanceFactor => Index.AmplitudeRatio;
}
