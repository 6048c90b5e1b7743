namespace Athwart.Catalogue.Tests;

public sealed class KitTests : IDisposable
{
    private readonly LibraryFixture _fixture = new();

    [Fact]
    public void TheKit_ComesBackByKindAndInTheOrderOfEntry()
    {
        KitItem[] items = [new("recorder", "pocket", 1, "{}"), new("microphone", "wide", 1, """{"ü":"“"}"""), new("microphone", "narrow", 2, "{}")];
        foreach (var item in items)
            _fixture.Library.SaveKitItem(item);

        Assert.Equal([items[1], items[2], items[0]], _fixture.Library.KitItems());
    }

    [Fact]
    public void AThingOfTheSameName_InOtherLetterCase_IsReplacedInItsPlace()
    {
        _fixture.Library.SaveKitItem(new("microphone", "wide ä", 1, "1"));
        _fixture.Library.SaveKitItem(new("microphone", "narrow", 1, "2"));
        _fixture.Library.SaveKitItem(new("recorder", "wide", 1, "3"));
        _fixture.Library.SaveKitItem(new("microphone", "Wide Ä", 1, "4"));

        Assert.Equal("Wide Ä 4, narrow 2, wide 3", string.Join(", ", _fixture.Library.KitItems().Select(i => $"{i.Name} {i.Json}")));
    }

    [Fact]
    public void Remove_TakesOneKindOnly_AndSaysWhetherItWasThere()
    {
        _fixture.Library.SaveKitItem(new("microphone", "wide", 1, "1"));
        _fixture.Library.SaveKitItem(new("recorder", "wide", 1, "2"));

        Assert.True(_fixture.Library.RemoveKitItem("microphone", "WIDE"));
        Assert.False(_fixture.Library.RemoveKitItem("microphone", "wide"));
        Assert.Equal("2", Assert.Single(_fixture.Library.KitItems()).Json);
    }

    [Fact]
    public void SeveralChanges_AreOneTransaction()
    {
        Assert.Throws<InvalidOperationException>(() => _fixture.Library.Transaction(() =>
        {
            _fixture.Library.SaveKitItem(new("microphone", "wide", 1, "1"));
            throw new InvalidOperationException("half-way");
        }));

        Assert.Empty(_fixture.Library.KitItems());
    }

    public void Dispose() => _fixture.Dispose();
}
