using Athwart.Jobs.Kits;
using Athwart.Jobs.PlanRig;
using Athwart.Microphones.Equipment;

namespace Athwart.Jobs.Tests.PlanRig;

public static class RigWishTests
{
    [Theory]
    [InlineData("cardioid", "cardioid", "figure-8", 0)]
    [InlineData("cardioid @ -3", "cardioid", "figure-8", -3)]
    [InlineData("short shotgun A + small figure-8 A @ −4.5", "short shotgun A", "small figure-8 A", -4.5)]
    [InlineData("studio: omni+eight@-inf", "studio: omni", "eight", double.NegativeInfinity)]
    public static void ARigInOneLine_IsRead(string text, string mid, string side, double level)
    {
        var wish = RigWish.Parse(text);
        Assert.Equal((mid, side, level), (wish.Mid, wish.Side, wish.SideLevel.Value));
    }

    [Theory]
    [InlineData("")]
    [InlineData(" + eight @ 3")]
    [InlineData("cardioid @ loud")]
    public static void ARigThatMeansNothing_IsRefused_WithTheWayToWriteIt(string text)
    {
        var refused = Assert.Throws<JobException>(() => RigWish.Parse(text));
        Assert.Equal(JobErrorKind.WrongUse, refused.Kind);
        Assert.Contains("@", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public static void WhatTheChoicePrints_IsReadBackAsTheSameRig()
    {
        var choice = ChooseRigJob.Run(new() { Kit = DemoKit.Kit, Outing = new(), CoverageDegrees = 90 });
        Assert.NotEmpty(choice.Ranked);
        Assert.All(choice.Ranked, row =>
        {
            var rig = RigResolver.Resolve(RigWish.Parse(row.Rig), DemoKit.Kit, new());
            Assert.Equal((row.Mid, row.Side, row.SideLevelDecibels), (rig.Mid.Name, rig.Side.Name, rig.SideLevel.Value));
            Assert.Equal(row.Rig, rig.Words);
        });
    }

    [Theory]
    [InlineData("studio multi-pattern", "small figure-8 A", "studio multi-pattern: omni", "small figure-8 A")]
    [InlineData("short shotgun b", "studio multi-pattern", "short shotgun B", "studio multi-pattern: figure-8")]
    [InlineData("capsule body: HYPERCARDIOID", "figure-8", "capsule body: hypercardioid", "figure-8")]
    [InlineData("0.6", "fig-8", "omni share 0.6", "figure-8")]
    public static void NamesOfTheKit_SettingsAndPatterns_AreFound(string mid, string side, string foundMid, string foundSide)
    {
        var rig = RigResolver.Resolve(new() { Mid = mid, Side = side }, DemoKit.Kit, new());
        Assert.Equal((foundMid, foundSide), (rig.Mid.Name, rig.Side.Name));
    }

    [Theory]
    [InlineData("studio multi-pattern: cardioid", "studio multi-pattern: figure-8", "only one")]
    [InlineData("short shotgun B", "small omni", "figure-8")]
    [InlineData("figure", "small figure-8 A", "'ribbon figure-8'")]
    [InlineData("drainpipe", "figure-8", "kit list")]
    public static void WhatCannotBeARig_IsRefused_WithTheReason(string mid, string side, string reason)
    {
        var refused = Assert.Throws<JobException>(() => RigResolver.Resolve(new() { Mid = mid, Side = side }, DemoKit.Kit, new()));
        Assert.Contains(reason, refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public static void ARecorderOrProtectionThatIsNotThere_IsNamed_WithThoseThatAre()
    {
        var recorder = Assert.Throws<JobException>(() => RigResolver.Resolve(new() { Mid = "cardioid", Recorder = "tape" }, DemoKit.Kit, new()));
        Assert.Contains("'pocket recorder'", recorder.Message, StringComparison.Ordinal);
        var protection = Assert.Throws<JobException>(() => RigResolver.Resolve(new() { Mid = "cardioid", Protection = "sock" }, Kit.Empty, new()));
        Assert.Contains("kit add", protection.Message, StringComparison.Ordinal);
    }

    // REFERENCES D1: the named cases.
    [Theory]
    [InlineData(SideLevelFrom.Coverage, "cardioid", 105.0, "", -3.0)]
    [InlineData(SideLevelFrom.IncludedAngle, "cardioid", 90.0, "", -6.0206)]
    [InlineData(SideLevelFrom.Pattern, "cardioid", 0, "hypercardioid", 3.0103)]
    public static void TheSideLevel_IsFoundFromWhatItIsFor(SideLevelFrom from, string mid, double angle, string pattern, double level)
    {
        var rig = RigResolver.Resolve(new() { Mid = mid, From = from, Angle = new(angle), Pattern = pattern }, Kit.Empty, new());
        Assert.True(rig.Reached, rig.How);
        Assert.Equal(level, rig.SideLevel.Value, 0.01);
    }

    [Fact]
    public static void WhatTheMidCannotReach_IsSaid_WithTheNearest()
    {
        var rig = RigResolver.Resolve(new() { Mid = "hypercardioid", From = SideLevelFrom.Coverage, Angle = new(300) }, Kit.Empty, new());
        Assert.False(rig.Reached);
        Assert.Contains("not reachable", rig.How, StringComparison.Ordinal);
        Assert.Throws<JobException>(() => RigResolver.Resolve(new() { Mid = "cardioid", From = SideLevelFrom.Coverage, Angle = new(400) }, Kit.Empty, new()));
        Assert.Throws<JobException>(() => RigResolver.Resolve(new() { Mid = "cardioid", From = SideLevelFrom.Pattern, Pattern = "star" }, Kit.Empty, new()));
    }
}
