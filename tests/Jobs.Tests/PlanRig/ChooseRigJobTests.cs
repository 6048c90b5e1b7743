using System.Text.Json;
using Athwart.Jobs.Kits;
using Athwart.Jobs.PlanRig;

namespace Athwart.Jobs.Tests.PlanRig;

public static class ChooseRigJobTests
{
    private static ChooseRigRequest Boat { get; } = new() { Kit = DemoKit.Kit, Outing = RigPlannerTests.Boat, Budget = "900 EUR" };

    [Fact]
    public static void ABoatWith900ToSpend_HasARankedChoice_WithinTheBudget_AndAReasonForEachPlace()
    {
        var choice = ChooseRigJob.Run(Boat);
        Assert.Equal(128.07, choice.WantedCoverageDegrees!.Value, 0.005);
        Assert.True(choice.Ranked.Count > 3);
        Assert.All(choice.Ranked, r => Assert.True(r.Cost.Sum(c => c.Amount) <= 900));
        Assert.All(choice.Ranked, r => Assert.NotEmpty(r.Reason));
        Assert.Contains(choice.Ranked, r => r.TradeOff);
        Assert.All(choice.Rejected, r => Assert.NotEmpty(r.FailsAt));
        Assert.Contains(choice.Rejected, r => r.FailsAt.Any(f => f is { Constraint: "budget", By: > 0, Unit: "EUR" }));
        Assert.Contains(choice.Asked, a => a.Contains("40 m", StringComparison.Ordinal));
        using var json = JsonDocument.Parse(JsonSerializer.Serialize(choice, RigJson.Readable.ChoiceDocument));
        Assert.Equal(choice.Ranked.Count, json.RootElement.GetProperty("ranked").GetArrayLength());
    }

    [Fact]
    public static void WhatMatters_ChangesTheOrder()
    {
        var quiet = ChooseRigJob.Run(Boat with { Matters = "noise" }).Ranked[0];
        var cheap = ChooseRigJob.Run(Boat with { Matters = "cost,noise" }).Ranked[0];
        Assert.True(quiet.NoiseDecibelsA < cheap.NoiseDecibelsA);
        Assert.True(quiet.Cost.Sum(c => c.Amount) > cheap.Cost.Sum(c => c.Amount));
    }

    [Theory]
    [InlineData("900")]
    [InlineData("nine EUR")]
    [InlineData("900 euros")]
    public static void ABudgetWithoutItsCurrency_IsRefused(string budget) =>
        Assert.Contains("900 EUR", Assert.Throws<JobException>(() => ChooseRigJob.Run(Boat with { Budget = budget })).Remedy, StringComparison.Ordinal);

    [Fact]
    public static void OtherWishesThatMeanNothing_AreNamed()
    {
        Assert.Contains("'beauty'", Assert.Throws<JobException>(() => ChooseRigJob.Run(Boat with { Matters = "beauty" })).Message, StringComparison.Ordinal);
        Assert.Throws<JobException>(() => ChooseRigJob.Run(Boat with { CoverageDegrees = 0 }));
        Assert.Throws<JobException>(() => ChooseRigJob.Run(Boat with { Recorder = "tape" }));
    }
}
