using Athwart.Jobs.Cut;

namespace Athwart.Jobs.Tests.Cut;

public sealed class FindCutsTests : IDisposable
{
    private readonly SoundCard _card = new();

    [Fact]
    public void SoundsThatStandOut_AreProposedAndNumbered_AndNothingIsCutBeforeApproval()
    {
        _card.Add("steps", 5, 0.001, [(1, 0.2, 0.2), (2, 0.2, 0.3), (3, 0.2, 0.2)]).TakeIn();
        var found = _card.Find();
        Assert.Equal(["steps 01", "steps 02", "steps 03"], found.Proposals.Select(p => p.Name), StringComparer.Ordinal);
        Assert.All(found.Proposals, p => Assert.Equal("event", p.What, StringComparer.Ordinal));
        Assert.InRange((double)found.Proposals[1].FromFrame / SoundCard.Rate, 1.95, 2.0);
        Assert.InRange((double)found.Proposals[1].ToFrame / SoundCard.Rate, 2.2, 2.35);
        Assert.Empty(_card.List().Cuts);
        _card.Approve(1, 3);
        Assert.Equal(["steps 01", "steps 03"], _card.List().Cuts.Select(c => c.Name), StringComparer.Ordinal);
        Assert.Equal("steps 02", Assert.Single(_card.List().Proposals).Name, StringComparer.Ordinal);
    }

    [Fact]
    public void WhatIsCutAlready_IsNotProposedAgain()
    {
        _card.Add("steps", 4, 0.001, [(1, 0.2, 0.2), (2, 0.2, 0.3)]).TakeIn();
        _card.Find();
        _card.Approve();
        var again = _card.Find();
        Assert.Empty(again.Proposals);
        Assert.Equal(2, Assert.Single(again.Takes).AlreadyCut);
    }

    [Fact]
    public void AnAmbience_IsOneLongCut()
    {
        _card.Add("weir", 6, 0.05, [(2, 0.05, 0.2)]).TakeIn();
        var bed = Assert.Single(_card.Find().Proposals);
        Assert.Equal(("bed", 0L, 6L * SoundCard.Rate), (bed.What, bed.FromFrame, bed.ToFrame));
    }

    [Fact]
    public void MarkersWithALength_AreCuts_AndTheOthersGiveNames()
    {
        _card.Add("gate", 6, 0.001, [(1, 0.3, 0.2), (3, 0.3, 0.2), (4.5, 0.3, 0.2)], [new(47000, 16000, "boom", ""), new(144500, 0, "chain", "")]).TakeIn();
        var found = _card.Find().Proposals;
        Assert.Equal([("boom", "marker"), ("chain", "event"), ("gate", "event")], found.Select(p => (p.Name, p.What)));
        var ignored = _card.Find(new() { Rules = [new() { Find = new() { Markers = CutMarkers.Ignore } }] }).Proposals;
        Assert.Equal(["gate 01", "gate 02", "gate 03"], ignored.Select(p => p.Name), StringComparer.Ordinal);
    }

    [Fact]
    public void TheFirstRuleThatFits_IsFollowed_AndATakeThatNoneFits_IsLeftAlone()
    {
        _card.Add("steps", 4, 0.001, [(1, 0.2, 0.2), (2, 0.2, 0.3)]).Add("weir", 4, 0.001, [(1, 0.2, 0.2)]).Add("gate", 4, 0.001, [(1, 0.2, 0.2)]).TakeIn();
        var rules = new CutRules
        {
            Rules =
            [
                new() { Take = "st*", Name = "footstep {nnn}", Find = new() { Order = CutOrder.Height }, Treat = new() { SideLevelDecibels = -3, FadeCurve = "linear" }, Tags = ["gravel"] },
                new() { Take = "*eir", Find = new() { How = CutHow.Whole } },
            ],
        };
        var found = _card.Find(rules);
        Assert.Equal([0, 1, 2], found.Takes.Select(t => t.Rule));
        Assert.Equal(["footstep 002", "footstep 001", "weir"], found.Proposals.Select(p => p.Name), StringComparer.Ordinal);
        _card.Approve();
        var step = _card.List().Cuts.First(c => c.Name == "footstep 001");
        Assert.Equal((-3.0, "linear", "gravel"), (step.SideLevelDecibels, step.FadeInCurve, step.Tags[0]));
    }

    [Fact]
    public void APictureOfEachTake_ShowsTheNumbersOfTheTable()
    {
        _card.Add("steps", 4, 0.001, [(1, 0.2, 0.2), (2, 0.2, 0.3)]).TakeIn();
        var found = _card.Find(pictures: Path.Combine(_card.Root, "pictures"));
        var svg = File.ReadAllText(Assert.Single(found.Takes).Picture);
        Assert.Contains("2: steps 02", svg, StringComparison.Ordinal);
    }

    [Fact]
    public void SamplesThatAreNoNumbers_AreSilence_AndSaidSo()
    {
        _card.Add("steps", 4, 0.001, [(2, 0.2, 0.3)], bad: float.NaN).TakeIn();
        var cut = Assert.Single(_card.Find().Proposals);
        Assert.Contains("no numbers", Assert.Single(cut.Remarks), StringComparison.Ordinal);
    }

    [Fact]
    public void ProposalNumbersThatAreNotThere_AreRefused()
    {
        _card.Add("steps", 4, 0.001, [(1, 0.2, 0.2)]).TakeIn();
        Assert.Throws<JobException>(() => _card.Approve());
        _card.Find();
        Assert.Contains("from 1 to 1", Assert.Throws<JobException>(() => _card.Approve(2)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{}", "rules")]
    [InlineData("{\"kind\":\"other\",\"rules\":[{}]}", "kind")]
    [InlineData("{\"version\":2,\"rules\":[{}]}", "version 2")]
    [InlineData("{\"rules\":[{\"find\":{\"onsetDecibels\":3}}]}", "rules[0]: broken rule: find.onsetDecibels")]
    [InlineData("{\"rules\":[{},{\"treat\":{\"fadeCurve\":\"bent\"}}]}", "bent")]
    [InlineData("{\"rules\":[{\"find\":null}]}", "rules[0]")]
    [InlineData("{\"rules\":[{\"fnid\":{}}]}", "fnid")]
    [InlineData("nothing", "broken rule")]
    public void RulesThatCannotBeMeant_AreRefused_AndThePlaceIsNamed(string text, string place) =>
        Assert.Contains(place, Assert.Throws<JobException>(() => CutRuleReader.Parse(text, "my.json")).Message, StringComparison.Ordinal);

    [Fact]
    public void TheRulesThatArePrinted_ReadBackAsTheUsualOnes()
    {
        var text = System.Text.Json.JsonSerializer.Serialize(CutRules.Usual, CutJson.Readable.CutRules);
        Assert.Equal(text, System.Text.Json.JsonSerializer.Serialize(CutRuleReader.Parse(text, "printed"), CutJson.Readable.CutRules));
    }

    public void Dispose() => _card.Dispose();
}
