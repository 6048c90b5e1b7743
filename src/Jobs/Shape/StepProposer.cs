using Athwart.Jobs.LineUp;
using Athwart.Jobs.Roles;
using Athwart.Metering;
using Athwart.Metering.Faults;
using Athwart.Quantities;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape;

/// <summary>From what was found in a take, and what is known of its rig, to steps that put it right.</summary>
/// <remarks>In the order they work best: first what the channels are, then what the rig is, then what disturbs, last what holds the decode in mono. Nothing is proposed for what no step mends, such as clipping.</remarks>
internal static class StepProposer
{
    /// <summary>The steps, numbered.</summary>
    public static IReadOnlyList<StepProposal> Propose(IReadOnlyList<Finding> findings, RigProfileDocument? rig, RoleAssignment roles, int sampleRateHertz)
    {
        if (roles.SideChannel is null)
            findings = [.. findings.Where(f => f.Role == ChannelRole.Mid)];
        var proposals = new List<StepProposal>();
        void Add(object? settings, string reason, Finding? finding)
        {
            if (settings is not null)
                proposals.Add(new(proposals.Count + 1, TreatmentStep.Of(settings, finding is null ? "rig" : finding.Kind), reason, finding));
        }

        foreach (var finding in findings.Where(f => f.Kind is FaultKinds.RolesSwapped))
            Add(new Swap(), finding.Message, finding);
        if (rig is not null && roles.SideChannel is not null)
            FromRig(rig, roles, sampleRateHertz, (settings, reason) => Add(settings, reason, null));
        var alreadyDelayed = proposals.Any(p => p.Step.Settings is Delay);
        foreach (var finding in findings.Where(f => f.Kind is FaultKinds.SideDelay && !alreadyDelayed).Take(1))
            Add(Earlier(finding.Size.GetValueOrDefault(), sampleRateHertz), finding.Message, finding);
        foreach (var line in findings.Where(f => f.Kind is FaultKinds.Tone or FaultKinds.UltrasonicTone))
            Add(DisturbanceSteps.Tone(Roles(line.Role), line, sampleRateHertz), line.Message, line);
        foreach (var group in findings.GroupBy(f => (f.Kind, f.Role)))
            Add(Disturbance(group.Key.Kind, Roles(group.Key.Role), [.. group], sampleRateHertz), Words([.. group]), group.First());
        if (findings.FirstOrDefault(f => f.Kind is FaultKinds.MonoLoss or FindingKinds.LowCorrelation or FindingKinds.OutOfPhase) is { } unsafeInMono)
            Add(new MonoGuard(lowestCorrelation: 0), unsafeInMono.Message, unsafeInMono);
        return proposals;
    }

    private static void FromRig(RigProfileDocument rig, RoleAssignment roles, int sampleRateHertz, Action<object?, string> add)
    {
        if (rig.SideInverted is { } inverted && inverted != roles.SideInverted)
            add(new Invert(PairRoles.Side), $"The line-up of '{rig.Rig}' found the side's positive lobe to the right.");
        if (rig.GainOffsetDecibels.Value is { } offset && Math.Abs(offset) >= 0.1)
            add(new Trim(PairRoles.Side, Math.Round(-offset, 2)), FormattableString.Invariant($"The line-up of '{rig.Rig}' found the side {offset:+0.00;−0.00} dB against the mid."));
        if (rig.DelayFrames.Value is { } delay && Math.Abs(delay) >= 0.05)
            add(Earlier(delay * sampleRateHertz / rig.SampleRateHertz, sampleRateHertz), FormattableString.Invariant($"The line-up of '{rig.Rig}' found the side {delay:+0.00;−0.00} frames late at {rig.SampleRateHertz} Hz."));
        if (rig.Response.Any(b => Math.Abs(b.CorrectionDecibels) >= 0.3))
            add(RigSteps.Response(rig), $"The line-up of '{rig.Rig}' found the side's response unlike the mid's.");
    }

    // A side that is late is brought forward; a tenth of a second is no longer a matter of two microphones.
    private static Delay? Earlier(double frames, int sampleRateHertz) =>
        frames != 0 && Math.Abs(frames) < sampleRateHertz / 10.0 ? new(PairRoles.Side, Math.Round(-1000 * frames / sampleRateHertz, 6)) : null;

    private static object? Disturbance(string kind, PairRoles roles, IReadOnlyList<Finding> findings, int sampleRateHertz) => kind switch
    {
        FindingKinds.DcOffset => new LowCut(roles, 10, 12),
        FaultKinds.Rumble or FaultKinds.Handling => new LowCut(roles, 60, 24),
        FaultKinds.Wind => DisturbanceSteps.Wind(roles, findings),
        FaultKinds.Hum => DisturbanceSteps.Hum(roles, findings),
        FaultKinds.Click or FaultKinds.Dropout => DisturbanceSteps.Repair(roles, findings, sampleRateHertz),
        _ => null,
    };

    private static PairRoles Roles(ChannelRole? role) => role switch
    {
        ChannelRole.Mid => PairRoles.Mid,
        ChannelRole.Side => PairRoles.Side,
        _ => PairRoles.Both,
    };

    private static string Words(IReadOnlyList<Finding> findings) => findings.Count == 1
        ? findings[0].Message
        : FormattableString.Invariant($"{findings[0].Message} And {findings.Count - 1} more of this kind.");
}
