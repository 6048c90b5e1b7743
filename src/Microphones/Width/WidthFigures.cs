using Athwart.Microphones.Rigs;
using Athwart.Quantities;

namespace Athwart.Microphones.Width;

/// <summary>What a side level of the decode means with a rig: the conversions of <see cref="WidthConversions"/> the other way round.</summary>
/// <param name="SideLevel">Of the decode.</param>
/// <param name="MatchedSideLevel">What it amounts to between matched microphones.</param>
/// <param name="Coverage">At the threshold; null when left and right never differ that much.</param>
/// <param name="Threshold">Of the coverage.</param>
/// <param name="Pair">The virtual pair.</param>
/// <param name="DiffuseCorrelation">Of left and right in a diffuse field; null when both are silent.</param>
/// <param name="DirectToDiffuse">A sound straight ahead above the diffuse field, left and right together, against an omni.</param>
/// <param name="Assumptions">What was not known of the rig.</param>
public sealed record WidthFigures(
    Decibels SideLevel,
    Decibels MatchedSideLevel,
    Degrees? Coverage,
    Decibels Threshold,
    VirtualPair Pair,
    double? DiffuseCorrelation,
    Decibels DirectToDiffuse,
    IReadOnlyList<string> Assumptions)
{
    /// <summary>The figures of a side level; −∞ dB is mono.</summary>
    /// <param name="rig">The rig.</param>
    /// <param name="sideLevel">Of the decode, −∞ dB or finite.</param>
    /// <param name="threshold">Difference of left and right at the edge of the coverage.</param>
    public static WidthFigures Of(WidthRig rig, Decibels sideLevel, Decibels threshold)
    {
        ArgumentNullException.ThrowIfNull(rig);
        if (!(sideLevel.Value < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(sideLevel), sideLevel.Value, "a side level is a number of decibels, or −∞ for mono");
        var pair = new MidSidePair(rig.Mid, rig.Side, rig.ToMatched(sideLevel));
        var field = DiffuseField.Of(pair, rig.Frequency);
        return new(
            sideLevel,
            pair.SideLevel,
            Rigs.Coverage.Of(pair, threshold, rig.Frequency),
            threshold,
            VirtualPair.Of(pair, rig.Frequency),
            field.Correlation,
            field.DirectToDiffuse(pair, default, rig.Frequency),
            rig.Assumptions);
    }
}
