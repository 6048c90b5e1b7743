namespace Athwart.Catalogue.Tests;

public sealed class TreatmentTests : IDisposable
{
    private static readonly DateTimeOffset Noon = new(2026, 11, 25, 12, 0, 0, TimeSpan.FromHours(1));
    private readonly LibraryFixture _fixture = new();
    private readonly CataloguedTake _take;

    public TreatmentTests() => _take = _fixture.AddTake(_fixture.AddSession(), "gates", "gates.wav");

    private Library Library => _fixture.Library;

    public void Dispose() => _fixture.Dispose();

    [Fact]
    public void AKeptTreatment_IsFoundByItsName_WhateverItsCase()
    {
        Keep("Pass-by", "{1}");
        Assert.Equal(new KeptTreatment(TreatmentScope.Name, "Pass-by", "{1}"), Library.GetTreatment(TreatmentScope.Name, "pass-BY"));
        Keep("PASS-BY", "{2}");
        Assert.Equal("{2}", Assert.Single(Library.Treatments(TreatmentScope.Name)).Json);
        Assert.Empty(Library.Treatments(TreatmentScope.Take));
    }

    [Fact]
    public void ManyChangesAtOnce_AreUndoneAndDoneAgainAtOnce()
    {
        Keep("Pass-by", "{1}");
        Library.ChangeTreatments("two at once", Noon, [new(TreatmentScope.Name, "Pass-by", "{2}"), new(TreatmentScope.Take, _take.Id.Value, "{3}")]);

        var undone = Library.UndoTreatments();
        Assert.Equal(("two at once", 2, Noon), (undone!.What, undone.Changes, undone.Date));
        Assert.Equal("{1}", Library.GetTreatment(TreatmentScope.Name, "Pass-by")!.Json);
        Assert.Null(Library.GetTreatment(TreatmentScope.Take, _take.Id.Value));

        Assert.Equal("two at once", Library.RedoTreatments()!.What);
        Assert.Equal("{2}", Library.GetTreatment(TreatmentScope.Name, "Pass-by")!.Json);
        Assert.Equal("{3}", Library.GetTreatment(TreatmentScope.Take, _take.Id.Value)!.Json);
        Assert.Null(Library.RedoTreatments());
    }

    [Fact]
    public void Undo_GoesBackChangeByChange_ToNothing()
    {
        Keep("a", "{1}");
        Library.ChangeTreatments("away", Noon, [new(TreatmentScope.Name, "a", null)]);
        Assert.Null(Library.GetTreatment(TreatmentScope.Name, "a"));
        Assert.Equal("away", Library.UndoTreatments()!.What);
        Assert.Equal("{1}", Library.GetTreatment(TreatmentScope.Name, "a")!.Json);
        Assert.Equal("keep a", Library.UndoTreatments()!.What);
        Assert.Null(Library.UndoTreatments());
        Assert.Empty(Library.Treatments(TreatmentScope.Name));
    }

    [Fact]
    public void AChangeAfterAnUndo_ForgetsWhatWasUndone()
    {
        Keep("a", "{1}");
        Keep("a", "{2}");
        Library.UndoTreatments();
        Keep("a", "{3}");
        Assert.Null(Library.RedoTreatments());
        Assert.Equal(["keep a", "keep a"], Library.TreatmentHistory().Select(h => h.What), StringComparer.Ordinal);
        Library.UndoTreatments();
        Assert.Equal("{1}", Library.GetTreatment(TreatmentScope.Name, "a")!.Json);
    }

    [Fact]
    public void TheTreatmentOfAnEffect_GoesWithIt_AndStaysAway()
    {
        var effect = LibraryFixture.EffectOf(_take, "Gate closes");
        Library.SaveEffect(effect);
        Library.ChangeTreatments("set", Noon, [new(TreatmentScope.Effect, effect.Id.Value, "{1}")]);
        Library.ChangeTreatments("set", Noon, [new(TreatmentScope.Effect, effect.Id.Value, "{2}")]);
        Library.RemoveEffect(effect.Id);
        Assert.Empty(Library.Treatments(TreatmentScope.Effect));
        Library.UndoTreatments();
        Assert.Empty(Library.Treatments(TreatmentScope.Effect));
    }

    private void Keep(string name, string json) => Library.ChangeTreatments("keep " + name, Noon, [new(TreatmentScope.Name, name, json)]);
}
