using System.Reflection;
using Athwart.Jobs.Roles;
using Athwart.Jobs.Shape;
using Athwart.Metering;
using Athwart.Metering.Faults;
using Athwart.Quantities;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Tests.Shape;

public sealed class StepProposerTests
{
    private const int Rate = 48_000;
    private static readonly RoleAssignment Roles = RoleReader.Decide([], 2, RoleSettings.None, RoleSettings.None);

    public static TheoryData<string> Kinds =>
        [.. new[] { typeof(FaultKinds), typeof(FindingKinds) }.SelectMany(t => t.GetFields(BindingFlags.Public | BindingFlags.Static)).Select(f => (string)f.GetRawConstantValue()!).Distinct(StringComparer.Ordinal)];

    // Whatever a detector says, at the ends of what it can say, proposing answers with steps that can be built, or with none.
    [Theory]
    [MemberData(nameof(Kinds))]
    public void AnyFinding_OfAnySize_IsAnsweredByStepsThatCanBeBuiltOrByNone(string kind)
    {
        double?[] sizes = [null, 0, -1, 0.001, 3, 50, 701, 23_900, 95_000, 1e9, double.NaN, double.PositiveInfinity];
        foreach (var role in new ChannelRole?[] { null, ChannelRole.Mid, ChannelRole.Side, ChannelRole.Left })
        {
            foreach (var size in sizes)
            {
                var findings = new[] { Of(kind, role, size, FrameRange.FromFrames(0, 3)), Of(kind, role, size, null) };
                foreach (var proposal in StepProposer.Propose(findings, null, Roles, Rate))
                    Assert.NotEmpty(proposal.Step.ToString());
            }
        }
    }

    [Fact]
    public void EveryLine_IsCutAtItsOwnFrequency()
    {
        var steps = StepProposer.Propose([Of(FaultKinds.Tone, ChannelRole.Side, 701, null), Of(FaultKinds.Tone, ChannelRole.Side, 1197, null)], null, Roles, Rate);

        Assert.Equal([701, 1197], steps.Select(s => Assert.IsType<Bell>(s.Step.Settings).CentreHertz));
        Assert.All(steps, s => Assert.Equal(PairRoles.Side, ((Bell)s.Step.Settings).Roles));
    }

    private static Finding Of(string kind, ChannelRole? role, double? size, FrameRange? range) =>
        new() { Kind = kind, Severity = FindingSeverity.Caution, Message = "made for the test", Role = role, Size = size, Range = range };
}
