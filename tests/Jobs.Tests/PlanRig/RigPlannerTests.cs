using System.Text.Json;
using Athwart.Jobs.Kits;
using Athwart.Jobs.PlanRig;
using Athwart.Microphones.Equipment;
using Athwart.Microphones.Hearing;
using Athwart.Microphones.Levels;

namespace Athwart.Jobs.Tests.PlanRig;

public static class RigPlannerTests
{
    /// <summary>A boat passes 12 m away over 40 m, from 45 to 95 dB.</summary>
    internal static Outing Boat { get; } = new()
    {
        Title = "Boat past the lock",
        Path = OutingRules.Path(40, 12, fromRight: false, speed: 1.5),
        QuietestDecibels = 45,
        LoudestDecibels = 95,
        Hours = 3,
        HeadphonesDecibelsA = 78,
        Hazards = SubjectHazards.Water | SubjectHazards.LockEdge,
        Spacing = OutingRules.Spacing(-30),
        Source = OutingRules.Source(80, -3),
    };

    internal static RigPlan Plan(string rig, Outing? outing = null, string? recorder = "pocket recorder", string? protection = "short cage") =>
        PlanRigJob.Run(new(RigWish.Parse(rig) with { Recorder = recorder, Protection = protection }, outing ?? Boat, DemoKit.Kit));

    // REFERENCES D2: a cardioid mid with the side at -3 dB; D1 for the null and the on-axis gain.
    [Fact]
    public static void ACardioidWithTheSideAtMinus3_ReadsAsInTheTable()
    {
        var d = PlanRigJob.Run(new(RigWish.Parse("cardioid @ -3"), new(), Kit.Empty)).Document;
        Assert.Equal(105.0, d.Coverage.Degrees!.Value, 0.05);
        Assert.Equal(114.9, d.Coverage.At18Degrees!.Value, 0.05);
        Assert.Equal(109.54, d.VirtualPair.IncludedAngleDegrees, 0.005);
        Assert.Equal(0.3658, d.VirtualPair.OmniShare, 0.00005);
        Assert.Equal(125.23, d.VirtualPair.NullDegrees!.Value, 0.005);
        Assert.Equal(2.71, d.VirtualPair.OnAxisGainDecibels, 0.005);
        Assert.Equal(0.3323, d.Diffuse.Correlation!.Value, 0.00005);
        Assert.Equal(4.77, d.Diffuse.MidDirectivityIndexDecibels, 0.005);
        Assert.Equal(1.732, d.Diffuse.MidDistanceFactor, 0.0005);
    }

    // REFERENCES D2, omni at -12 dB: never reached.
    [Fact]
    public static void NeverReached_IsAnAnswer_InTheDocumentAndInWords()
    {
        var d = PlanRigJob.Run(new(RigWish.Parse("omni @ -12"), new(), Kit.Empty)).Document;
        Assert.Null(d.Coverage.Degrees);
        Assert.Contains(RigFacts.Of(d), f => f.Value.StartsWith("never reached", StringComparison.Ordinal));
    }

    [Fact]
    public static void TheBoat_IsPlannedInEveryPart()
    {
        var d = Plan("short shotgun B + small figure-8 B @ -6").Document;

        // 2·atan(20/12) degrees.
        Assert.Equal(118.07, d.Subject!.AngleDegrees, 0.005);
        Assert.Equal(26.67, d.Subject.Seconds!.Value, 0.005);
        Assert.Equal("fills the width well", d.Subject.Verdict);

        // 20 against 8 mV/Pa: 7.96 dB.
        Assert.Equal(20 * Math.Log10(20.0 / 8), d.Gains!.MatchDecibels!.Value, 0.0005);
        Assert.Equal((24, 32), ((int)d.Gains.Mid.GainDecibels!.Value, (int)d.Gains.Side.GainDecibels!.Value));
        Assert.True(d.Gains.Mid.LoudestDecibelsFullScale is <= -6 and > -10);

        // 30 mm at 20 °C: REFERENCES F3, 87.4 µs and 4.196 samples at 48 kHz.
        Assert.Equal(87.4, d.Delay!.LongestMicroseconds, 0.05);
        Assert.Equal(4.196, d.Delay.LongestSamples, 0.0005);
        Assert.Contains("fits into short cage", d.Parts.Fit, StringComparison.Ordinal);
        Assert.Equal(["520 EUR"], d.Parts.Cost);
        Assert.NotNull(d.Reach!.HighestHertz);
        Assert.True(d.Power!.PhantomSuffices);
        Assert.Contains(d.Cautions, c => c.StartsWith("Water", StringComparison.Ordinal));
        Assert.StartsWith("Local law", d.Cautions[0], StringComparison.Ordinal);
        Assert.Empty(d.NotKnown);
    }

    [Fact]
    public static void Noise_IsThatOfTheLevelsPart()
    {
        var plan = Plan("short shotgun B + small figure-8 B @ -6");
        var expected = DecodedNoise.For(plan.Rig.Mid.Setting, plan.Rig.Side.Setting, plan.Rig.Recorder, -6, 45);
        Assert.Equal(expected.LeftRightDecibelsA!.Value, plan.Document.Noise.LeftRightDecibelsA!.Value, 0.0001);
        Assert.Equal(expected.SideCostDecibels!.Value, plan.Document.Noise.SideCostDecibels!.Value, 0.0001);
    }

    [Fact]
    public static void MissingFigures_AreSaid_AndTheRestIsAnswered()
    {
        var d = Plan("reporter's cardioid + second-hand figure-8 @ 0").Document;
        Assert.NotNull(d.Coverage.Degrees);
        Assert.Null(d.Noise.LeftRightDecibelsA);
        Assert.Contains(d.NotKnown, t => t.Contains("noise", StringComparison.Ordinal));
        Assert.Contains(RigFacts.Of(d), f => f.Value == RigFacts.NotKnown);
    }

    [Fact]
    public static void TheJson_IsOneDocumentOfPlainNumbers_EvenWithoutASide()
    {
        foreach (var rig in (string[])["short shotgun B + small figure-8 B @ -6", "short shotgun A + ribbon figure-8 @ -inf", "omni @ 0", "figure-8 @ 60"])
        {
            var json = JsonSerializer.Serialize(Plan(rig).Document, RigJson.Readable.RigDocument);
            using var parsed = JsonDocument.Parse(json);
            Assert.Equal(1, parsed.RootElement.GetProperty("athwartRig").GetInt32());
            Assert.DoesNotContain("NaN", json, StringComparison.Ordinal);
        }
    }

    public static TheoryData<string> WrongOutings => [.. Wrong.Keys];

    private static Dictionary<string, Func<Outing>> Wrong { get; } = new(StringComparer.Ordinal)
    {
        ["quietest level"] = () => OutingRules.Checked(new() { QuietestDecibels = 300 }),
        ["above the loudest"] = () => OutingRules.Checked(new() { QuietestDecibels = 90, LoudestDecibels = 60 }),
        ["threshold"] = () => OutingRules.Checked(new() { Threshold = new(0) }),
        ["distance"] = () => OutingRules.Checked(new() { Still = new(4, 0) }),
        ["sample rate"] = () => OutingRules.Checked(new() { RateHertz = 1 }),
        ["bits"] = () => OutingRules.Checked(new() { WordBits = 12 }),
        ["temperature"] = () => new() { Air = OutingRules.Air(900, null, null) },
        ["humidity"] = () => new() { Air = OutingRules.Air(null, 0, null) },
        ["spacing"] = () => new() { Spacing = OutingRules.Spacing(9000) },
        ["path"] = () => new() { Path = OutingRules.Path(-1, 12, false, null) },
        ["no hazard"] = () => new() { Hazards = HazardWords.Parse(["dragons"]) },
        ["hours"] = () => OutingRules.Checked(new() { Hours = 30 }),
    };

    [Theory]
    [MemberData(nameof(WrongOutings))]
    public static void WhatCannotBe_IsNamed_WithWhatCan(string named)
    {
        var refused = Assert.Throws<JobException>(() => Wrong[named]());
        Assert.Equal(JobErrorKind.WrongUse, refused.Kind);
        Assert.Contains(named, refused.Message, StringComparison.OrdinalIgnoreCase);
        Assert.NotEmpty(refused.Remedy);
    }

    [Fact]
    public static void EveryHazardHasItsWordAndItsCaution()
    {
        foreach (var word in HazardWords.All)
            Assert.True(Cautions.For(HazardWords.Parse([word])).Count > Cautions.For(SubjectHazards.None).Count, word);
        Assert.Equal(SubjectHazards.Water | SubjectHazards.LockEdge, HazardWords.Parse(["water, lock-edge"]));
    }
}
