using System.Globalization;
using Athwart.Microphones.Patterns;
using Athwart.Microphones.Rigs;
using Athwart.Quantities;

namespace Athwart.Microphones.Width;

/// <summary>From a width that means something to the side level to decode at.</summary>
/// <remarks>
/// By coverage, virtual pair, virtual pattern, correlation in a diffuse field, or how far a sound in front stands out of it. What a
/// side level means the other way round: <see cref="WidthFigures"/>. By what was measured of a take instead of by the rig:
/// <see cref="SafeWidth"/>. Source: derived, see docs/sources.md (relation of L, R, M, S).
/// </remarks>
public static class WidthConversions
{
    private const double CorrelationTolerance = 0.0005;
    private const double DecibelTolerance = 0.005;

    /// <summary>For a coverage: the sector ahead that fills the base between the loudspeakers.</summary>
    /// <param name="rig">The rig.</param>
    /// <param name="coverage">Above 0 and below 360 degrees.</param>
    /// <param name="threshold">Difference of left and right that counts as wholly at one side; <see cref="Coverage.FullSide"/> unless another custom is followed.</param>
    public static WidthAnswer ForCoverage(WidthRig rig, Degrees coverage, Decibels threshold)
    {
        ArgumentNullException.ThrowIfNull(rig);
        var answer = From(rig, RigSettings.ForCoverage(rig.Mid, rig.Side, coverage, threshold, rig.Frequency));
        return answer with { MidTrim = default, Remark = answer.Remark + string.Create(CultureInfo.InvariantCulture, $", to its edge at {threshold.Value:0.#} dB between left and right") };
    }

    /// <summary>For the angle between the axes of the virtual pair.</summary>
    /// <param name="rig">The rig.</param>
    /// <param name="includedAngle">Above 0 and at most 180 degrees.</param>
    public static WidthAnswer ForIncludedAngle(WidthRig rig, Degrees includedAngle)
    {
        ArgumentNullException.ThrowIfNull(rig);
        return From(rig, RigSettings.ForIncludedAngle(rig.Mid, rig.Side, includedAngle, rig.Frequency));
    }

    /// <summary>For the pattern that left and right are to hear with.</summary>
    /// <param name="rig">The rig.</param>
    /// <param name="virtualPattern">Never wider than the mid's own.</param>
    public static WidthAnswer ForVirtualPattern(WidthRig rig, FirstOrderPattern virtualPattern)
    {
        ArgumentNullException.ThrowIfNull(rig);
        return From(rig, RigSettings.ForPattern(rig.Mid, rig.Side, virtualPattern, rig.Frequency));
    }

    /// <summary>For a whole crossed pair, pattern and angle: reached only with the mid that it needs, else the nearest by its angle.</summary>
    /// <param name="rig">The rig.</param>
    /// <param name="pattern">Of both crossed microphones.</param>
    /// <param name="includedAngle">Between their axes, above 0 and at most 180 degrees.</param>
    public static WidthAnswer ForCrossedPair(WidthRig rig, FirstOrderPattern pattern, Degrees includedAngle)
    {
        ArgumentNullException.ThrowIfNull(rig);
        return From(rig, RigSettings.ForCrossedPair(rig.Mid, rig.Side, pattern, includedAngle, rig.Frequency));
    }

    /// <summary>For a correlation of left and right in a diffuse field.</summary>
    /// <param name="rig">The rig.</param>
    /// <param name="correlation">Above −1 and below 1: 1 would be mono, 0 is as wide as unrelated channels, below 0 left and right begin to cancel.</param>
    public static WidthAnswer ForDiffuseCorrelation(WidthRig rig, double correlation)
    {
        ArgumentNullException.ThrowIfNull(rig);
        var field = DiffuseField.Of(new(rig.Mid, rig.Side, default), rig.Frequency);
        var level = RigSettings.Limited(CorrelationLaw.SideGain(field.MidPower, field.SidePower, field.CrossPower, correlation));
        var got = DiffuseField.Of(new(rig.Mid, rig.Side, level), rig.Frequency).Correlation;
        var reached = got is { } value && Math.Abs(value - correlation) <= CorrelationTolerance;
        return Own(rig, reached, level, correlation, got, string.Create(CultureInfo.InvariantCulture, $"a correlation of {got ?? double.NaN:0.000} in a diffuse field"));
    }

    /// <summary>
    /// For how far a sound straight ahead stands above the diffuse field in left and right together, against an omni in the same place:
    /// 10·lg(1/(PM + g²·PS)), PM and PS the diffuse powers of mid and side.
    /// </summary>
    /// <param name="rig">The rig.</param>
    /// <param name="directToDiffuse">At most the mid's directivity index (no side); less is more room.</param>
    public static WidthAnswer ForDirectToDiffuse(WidthRig rig, Decibels directToDiffuse)
    {
        ArgumentNullException.ThrowIfNull(rig);
        if (!double.IsFinite(directToDiffuse.Value))
            throw new ArgumentOutOfRangeException(nameof(directToDiffuse), directToDiffuse.Value, "a direct-to-diffuse ratio is a finite number of decibels, such as 3");
        var pair = new MidSidePair(rig.Mid, rig.Side, default);
        var field = DiffuseField.Of(pair, rig.Frequency);
        var level = RigSettings.Limited(Math.Sqrt(Math.Max(0, ((1 / directToDiffuse.PowerRatio) - field.MidPower) / field.SidePower)));
        var there = pair with { SideLevel = level };
        var got = DiffuseField.Of(there, rig.Frequency).DirectToDiffuse(there, default, rig.Frequency);
        var reached = Math.Abs((got - directToDiffuse).Value) <= DecibelTolerance;
        return Own(rig, reached, level, directToDiffuse.Value, got.Value, $"direct sound from ahead {got} against the diffuse field");
    }

    private static WidthAnswer From(WidthRig rig, RigSetting setting) => new(
        setting.Reached,
        rig.ToDecode(setting.SideLevel),
        setting.MidTrim,
        setting.Wanted,
        setting.Got,
        setting.Pair,
        rig.Assumptions,
        setting.Remark + Recorded(rig));

    private static WidthAnswer Own(WidthRig rig, bool reached, Decibels level, double wanted, double? got, string what) => new(
        reached,
        rig.ToDecode(level),
        default,
        wanted,
        got,
        VirtualPair.Of(new(rig.Mid, rig.Side, level), rig.Frequency),
        rig.Assumptions,
        (reached ? $"{what} at a side level of {level}" : $"not reachable with this mid; nearest is {what} at a side level of {level}") + Recorded(rig));

    private static string Recorded(WidthRig rig) => rig.RecordedSideLevel == default ? ""
        : $" between matched microphones; the side was recorded {rig.RecordedSideLevel} against the mid";
}
