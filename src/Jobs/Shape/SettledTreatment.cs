using Athwart.Jobs.LineUp;
using Athwart.Microphones.Patterns;
using Athwart.Microphones.Width;
using Athwart.Quantities;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape;

/// <summary>A treatment worked out for one take: steps that need nothing else to know, and the side level.</summary>
public sealed record SettledTreatment
{
    /// <summary>The treatment's name.</summary>
    public required string Name { get; init; }

    /// <summary>The steps, with what comes from the rig profile written into them.</summary>
    public required IReadOnlyList<TreatmentStep> Steps { get; init; }

    /// <summary>The side level that the treatment asks for; null where it asks for none.</summary>
    public Decibels? SideLevel { get; init; }

    /// <summary>The rig profile that was used or was at hand; null for none.</summary>
    public RigProfileDocument? Rig { get; init; }

    /// <summary>What was assumed, and what a width amounts to: sentences without a full stop.</summary>
    public IReadOnlyList<string> Remarks { get; init; } = [];

    /// <summary>What could not be met exactly.</summary>
    public IReadOnlyList<Finding> Findings { get; init; } = [];

    /// <summary>Whether a step gives a take without a side one.</summary>
    public bool MakesSide => Steps.Any(s => s.Kind.MakesSide);
}

/// <summary>Works a treatment out for one take.</summary>
internal static class TreatmentSettler
{
    /// <summary>Works it out.</summary>
    /// <param name="treatment">The treatment.</param>
    /// <param name="rig">The rig as a line-up measured it; null when none did.</param>
    /// <param name="measure">Measures mid and side after these steps, for a width that depends on the sound.</param>
    /// <exception cref="JobException">It is made for another rig, or needs a profile that is not there.</exception>
    public static SettledTreatment Settle(Treatment treatment, RigProfileDocument? rig, Func<IReadOnlyList<TreatmentStep>, MidSidePower> measure)
    {
        TreatmentRules.Checked(treatment, $"treatment '{treatment.Name}'");
        RequireRig(treatment, rig);
        var steps = treatment.Steps.SelectMany(s => s.Kind.NeedsRig ? RigSteps.Of(s, rig, treatment.Name) : [s]).ToList();
        if (treatment.Decode is not { } decode)
            return new() { Name = treatment.Name, Steps = steps, Rig = rig };
        var answer = TreatmentDecodes.Settle(decode, WidthRigOf(rig), () => measure(steps));
        var isAsked = decode.SideLevelDecibels is not null || decode.NoSide is true;
        return new()
        {
            Name = treatment.Name,
            // The trim of a virtual pair is one of both channels.
            Steps = answer.MidTrim.Value == 0 ? steps : [.. steps, TreatmentStep.Of(new Trim(PairRoles.Both, answer.MidTrim.Value), "trim of the virtual pair")],
            SideLevel = answer.SideLevel,
            Rig = rig,
            Remarks = isAsked ? [] : [$"side level {answer.SideLevel}: {answer.Remark}", .. answer.Assumptions],
            Findings = answer.Reached ? [] : [Unreached(treatment, answer, decode.SafeCorrelation is null && decode.DiffuseCorrelation is null ? "degrees" : "")],
        };
    }

    internal static void RequireRig(Treatment treatment, RigProfileDocument? rig)
    {
        if (treatment.Rig is not { } wanted || string.Equals(wanted, rig?.Rig, StringComparison.OrdinalIgnoreCase))
            return;
        var found = rig?.Rig is { } other ? $"this session was recorded with '{other}'" : "no rig profile is attached to this session";
        throw new JobException(JobErrorKind.Refused, $"Treatment '{treatment.Name}' is made for the rig '{wanted}', and {found}.", "Attach the right profile with 'athwart line-up', or take 'rig' out of the treatment to use it with any.");
    }

    private static WidthRig WidthRigOf(RigProfileDocument? rig) => rig is null
        ? WidthRig.Assumed
        : WidthRig.Of(
            new FirstOrderPattern(rig.MeasuredMidPattern.Value ?? rig.MidPattern),
            FirstOrderPattern.FigureEight,
            rig.GainOffsetDecibels.Value is { } offset ? new Decibels(offset) : null);

    private static Finding Unreached(Treatment treatment, WidthAnswer answer, string unit) => new()
    {
        Kind = "width-not-reached",
        Severity = FindingSeverity.Caution,
        Message = $"Treatment '{treatment.Name}': {answer.Remark}; the nearest is used, a side level of {answer.SideLevel}.",
        Remedy = "Ask for a width that this rig gives, or say a side level.",
        Evidence = answer.Got is { } got ? [new("wanted", answer.Wanted, unit), new("nearest", got, unit)] : [new("wanted", answer.Wanted, unit)],
    };
}
