using Athwart.Quantities;

namespace Athwart.Catalogue.Tests;

public sealed class FindEffectsTests : IDisposable
{
    private readonly LibraryFixture _fixture = new();
    private readonly CataloguedTake _take;

    public FindEffectsTests()
    {
        _take = _fixture.AddTake(_fixture.AddSession(), "gates", "gates.wav");
        Library.SaveEffect(LibraryFixture.EffectOf(_take, "Gate closes") with { Tags = ["wood", "slow"], Notes = "Écluse, upper gate" });
        Library.SaveEffect(LibraryFixture.EffectOf(_take, "Sluice runs") with { Tags = ["water"], Tokens = new Dictionary<string, string>(StringComparer.Ordinal) { ["scene"] = "dawn" } });
    }

    private Library Library => _fixture.Library;

    [Theory]
    [InlineData("gate", 2)]
    [InlineData("clo", 1)]
    [InlineData("WOOD clos", 1)]
    [InlineData("ecluse", 1)]
    [InlineData("dawn", 1)]
    [InlineData("canal", 2)]
    [InlineData("wood water", 0)]
    [InlineData("", 2)]
    [InlineData("\" OR * ( NEAR", 0)]
    [InlineData("* -", 2)]
    public void FindEffects_EveryWordBeginsAWord(string text, int expected)
    {
        var found = Library.FindEffects(text, 10);

        Assert.Equal(expected, found.Effects.Count);
        Assert.Equal(expected, found.Total);
    }

    [Fact]
    public void FindEffects_TheNewestComesFirstWithItsTakeAndSession()
    {
        var found = Library.FindEffects("gate", 1);

        var hit = Assert.Single(found.Effects);
        Assert.Equal("Sluice runs", hit.Effect.Name);
        Assert.Equal(["water"], hit.Effect.Tags);
        Assert.Equal(("gates", "Canal lock", 0.05), (hit.TakeName, hit.SessionName, hit.Seconds));
        Assert.Null(hit.Delivered);
        Assert.Equal(2, found.Total);
    }

    [Fact]
    public void AnEffectThatIsChanged_IsFoundByItsNewWordsOnly()
    {
        var effect = Library.FindEffects("sluice", 1).Effects[0].Effect;

        Library.SaveEffect(effect with { Name = "Paddle drops", Tags = ["iron"] });

        Assert.Empty(Library.FindEffects("sluice", 1).Effects);
        Assert.Empty(Library.FindEffects("water", 1).Effects);
        Assert.Single(Library.FindEffects("iron paddle", 1).Effects);
    }

    [Fact]
    public void AnEffectThatIsRemoved_IsNotFound()
    {
        Library.RemoveEffect(Library.FindEffects("sluice", 1).Effects[0].Effect.Id);

        Assert.Empty(Library.FindEffects("sluice", 1).Effects);
        Assert.Single(Library.FindEffects("", 5).Effects);
    }

    [Fact]
    public void ATakeThatIsRenamed_IsFoundByItsNewName()
    {
        Library.UpdateTake(_take with { Name = "upper pound" });

        Assert.Equal(2, Library.FindEffects("pound", 5).Effects.Count);
    }

    [Fact]
    public void Summaries_SayWhatWasFoundAndHowManyCutsThereAre()
    {
        Library.ReplaceFindings(_take.Id, [Found("wind", FindingSeverity.Caution), Found("flat-tops", FindingSeverity.Fault), Found("wind", FindingSeverity.Note)]);
        Library.ReplaceMeasures(_take.Id, new(1, "{}"));

        var summary = Assert.Single(Library.Summaries(_take.Session));

        Assert.True(summary.IsChecked);
        Assert.Equal(2, summary.Effects);
        Assert.Equal([new("flat-tops", FindingSeverity.Fault, 1), new FoundKind("wind", FindingSeverity.Caution, 2)], summary.Found);
        Assert.Equal(FindingSeverity.Fault, summary.Worst);
        Assert.Equivalent(summary, Library.GetSummary(_take.Id));
    }

    public void Dispose() => _fixture.Dispose();

    private static Finding Found(string kind, FindingSeverity severity) => new() { Kind = kind, Severity = severity, Message = kind };
}
