using Athwart.Microphones.Patterns;
using Athwart.Microphones.Width;
using Athwart.Quantities;

namespace Athwart.Jobs.Shape;

/// <summary>From the width that a treatment asks for to the side level that makes it.</summary>
internal static class TreatmentDecodes
{
    /// <summary>The level difference at which a sound counts as wholly to one side, in decibels.</summary>
    private static readonly Decibels Threshold = new(15);

    /// <summary>Refuses a width said in several ways, or out of range.</summary>
    public static void Check(TreatmentDecode? decode, string name)
    {
        if (decode is null)
            return;
        var ways = new[] { decode.SideLevelDecibels is not null, decode.NoSide is true, decode.CoverageDegrees is not null, decode.IncludedAngleDegrees is not null, decode.DiffuseCorrelation is not null, decode.SafeCorrelation is not null };
        TreatmentRules.Require(ways.Count(w => w) == 1, name, "decode", "the width is said in exactly one way", "Keep one of sideLevelDecibels, noSide, coverageDegrees, includedAngleDegrees (with patternOmniShare or without), diffuseCorrelation and safeCorrelation.");
        Within(decode.SideLevelDecibels, -100, 60, name, "sideLevelDecibels", "dB");
        Within(decode.CoverageDegrees, 10, 360, name, "coverageDegrees", "degrees");
        Within(decode.IncludedAngleDegrees, 1, 180, name, "includedAngleDegrees", "degrees");
        Within(decode.PatternOmniShare, 0, 1, name, "patternOmniShare", "");
        Within(decode.DiffuseCorrelation, -1, 1, name, "diffuseCorrelation", "");
        Within(decode.SafeCorrelation, -0.9, 0.9, name, "safeCorrelation", "");
        TreatmentRules.Require(decode.PatternOmniShare is null || decode.IncludedAngleDegrees is not null, name, "decode.patternOmniShare", "it goes with includedAngleDegrees", "Give both, or leave it out.");
    }

    /// <summary>Answers a width with a side level.</summary>
    /// <param name="decode">The wish.</param>
    /// <param name="rig">The rig, with what had to be assumed.</param>
    /// <param name="measure">Measures mid and side as treated, for a width that depends on the sound.</param>
    public static WidthAnswer Settle(TreatmentDecode decode, WidthRig rig, Func<MidSidePower> measure)
    {
        if (decode.CoverageDegrees is { } coverage)
            return WidthConversions.ForCoverage(rig, new(coverage), Threshold);
        if (decode is { IncludedAngleDegrees: { } crossed, PatternOmniShare: { } share })
            return WidthConversions.ForCrossedPair(rig, new FirstOrderPattern(share), new(crossed));
        if (decode.IncludedAngleDegrees is { } angle)
            return WidthConversions.ForIncludedAngle(rig, new(angle));
        if (decode.DiffuseCorrelation is { } correlation)
            return WidthConversions.ForDiffuseCorrelation(rig, correlation);
        if (decode.SafeCorrelation is { } safe)
            return SafeWidth.ByCorrelation([measure()], safe);
        var level = decode.NoSide is true ? Decibels.Silence : new Decibels(decode.SideLevelDecibels ?? 0);
        return new(true, level, default, level.Value, level.Value, null, [], "");
    }

    private static void Within(double? value, double lowest, double highest, string name, string field, string unit) => TreatmentRules.Require(
        value is not { } given || (given >= lowest && given <= highest),
        name,
        "decode." + field,
        FormattableString.Invariant($"it lies between {lowest} and {highest} {unit}").TrimEnd(),
        "Give a value in that range.");
}
