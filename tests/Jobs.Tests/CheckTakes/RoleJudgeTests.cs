using Athwart.Jobs.CheckTakes;
using Athwart.Jobs.LineUp;
using Athwart.Jobs.Roles;
using Athwart.Quantities;

namespace Athwart.Jobs.Tests.CheckTakes;

/// <summary>Names and line-ups outrank statistics, and what outranked what is said.</summary>
public static class RoleJudgeTests
{
    [Theory]
    [InlineData(RoleEvidence.ChannelOrder, null, 0.9, 0.9)]
    [InlineData(RoleEvidence.ChannelOrder, 1, 0.9, 0.009)]
    [InlineData(RoleEvidence.ChannelOrder, 2, 0.9, 0.999)]
    [InlineData(RoleEvidence.TrackName, null, 0.95, 0.114)]
    [InlineData(RoleEvidence.TrackName, 2, 0.95, 0.992)]
    public static void Swapped_ByStatistics_IsWeighedAgainstNamesAndLineUp(RoleEvidence evidence, int? lineUpMid, double statistics, double together)
    {
        var finding = RoleJudge.Weigh([Swapped(statistics)], Roles(evidence), Rig(lineUpMid)).SingleOrDefault();
        if (together < 0.1)
        {
            Assert.Null(finding);
            return;
        }

        Assert.NotNull(finding);
        Assert.Equal(together, finding.Confidence, 0.005);
        Assert.Equal(together >= 0.95 ? FindingSeverity.Caution : FindingSeverity.Note, finding.Severity);
        Assert.Equal(evidence == RoleEvidence.TrackName || lineUpMid is not null, finding.Evidence.Any(e => string.Equals(e.Unit, "log odds", StringComparison.Ordinal)));
    }

    [Fact]
    public static void ALineUpWithTheRolesExchanged_IsSaid_ThoughStatisticsSayNothing()
    {
        var finding = Assert.Single(RoleJudge.Weigh([], Roles(RoleEvidence.ChannelOrder), Rig(2)));
        Assert.Equal("roles-swapped", finding.Kind);
        Assert.True(finding.Confidence > 0.9);
        Assert.Contains("the line-up of 2026-05-14 has the mid on channel 2", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public static void WithoutLineUpNamesAndStatistics_NothingIsSaid() => Assert.Empty(RoleJudge.Weigh([], Roles(RoleEvidence.ChannelOrder), null));

    [Fact]
    public static void AlreadyDecoded_IsSurer_WhenTheTracksAreNamedLeftAndRight()
    {
        var finding = new Finding { Kind = "already-decoded", Severity = FindingSeverity.Note, Message = "Left and right.", Confidence = 0.8 };
        var weighed = Assert.Single(RoleJudge.Weigh([finding], Roles(RoleEvidence.ChannelOrder) with { SaysLeftRight = true }, null));
        Assert.Equal(1 / (1 + (0.25 * Math.Exp(-3))), weighed.Confidence, 1e-9);
    }

    private static Finding Swapped(double p) => new() { Kind = "roles-swapped", Severity = FindingSeverity.Note, Message = "With a probability.", Confidence = p };

    private static RoleAssignment Roles(RoleEvidence evidence) => new() { MidChannel = 0, SideChannel = 1, Evidence = evidence, Explanation = "" };

    private static RigProfileDocument? Rig(int? mid)
    {
        if (mid is not { } channel)
            return null;
        var unknown = new NumberDocument(null, null, "not asked");
        var noise = new NoiseDocument(unknown, unknown, null, unknown, []);
        return new()
        {
            AthwartRig = 1,
            Program = "test",
            Take = "T01",
            SampleRateHertz = 48000,
            Measured = "2026-05-14",
            MidChannel = channel,
            SideChannel = 3 - channel,
            RolesProbability = 0.999,
            MidPattern = 0.5,
            GainOffsetDecibels = unknown,
            DelayFrames = unknown,
            SpacingForwardMetres = unknown,
            SpacingLeftMetres = unknown,
            SideAngleDegrees = unknown,
            MeasuredMidPattern = unknown,
            Response = [],
            MidNoise = noise,
            SideNoise = noise,
            Assumptions = [],
        };
    }
}
