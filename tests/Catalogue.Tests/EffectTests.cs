using Athwart.Quantities;

namespace Athwart.Catalogue.Tests;

public sealed class EffectTests : IDisposable
{
    private readonly LibraryFixture _fixture = new();
    private readonly Session _session;
    private readonly CataloguedTake _take;

    public EffectTests()
    {
        _session = _fixture.AddSession();
        _take = _fixture.AddTake(_session, "gates", "gates.wav");
    }

    private Library Library => _fixture.Library;

    [Fact]
    public void SaveEffect_EveryFieldComesBack()
    {
        var effect = LibraryFixture.EffectOf(_take, "Gate closes") with
        {
            FadeIn = new(480),
            FadeOut = new(960),
            SideLevel = Decibels.Silence,
            Tags = ["wood", "água", "wood"],
            Notes = "creak, then thud",
            Tokens = new Dictionary<string, string>(StringComparer.Ordinal) { ["scene"] = "lock, \"lower\" gate", ["project"] = "Canal" },
        };

        Library.SaveEffect(effect);

        var found = Library.GetEffect(effect.Id);
        Assert.NotNull(found);
        Assert.Equal(effect.Tags, found.Tags);
        Assert.Equal(effect.Tokens, found.Tokens);
        Assert.Equal(effect, found with { Tags = effect.Tags, Tokens = effect.Tokens });
    }

    [Fact]
    public void SaveEffect_Again_ReplacesIt_AndAnotherOfTheNameIsAConflict()
    {
        var effect = LibraryFixture.EffectOf(_take, "Gate closes") with { Tags = ["wood"] };
        Library.SaveEffect(effect);

        Library.SaveEffect(effect with { Name = "Gate shuts", Tags = ["iron"] });
        Library.SaveEffect(LibraryFixture.EffectOf(_take, "Gate closes"));

        Assert.Equal(["iron"], Library.GetEffect(effect.Id)?.Tags);
        Assert.Equal(LibraryErrorKind.Conflict, Assert.Throws<LibraryException>(() => Library.SaveEffect(LibraryFixture.EffectOf(_take, "Gate shuts"))).Kind);
    }

    [Fact]
    public void Effects_OfTakeAndSession_InOrder()
    {
        var other = _fixture.AddTake(_session, "boat", "boat.wav");
        Library.SaveEffect(LibraryFixture.EffectOf(_take, "late") with { Range = FrameRange.FromFrames(500, 600) });
        Library.SaveEffect(LibraryFixture.EffectOf(_take, "early") with { Range = FrameRange.FromFrames(0, 100) });
        Library.SaveEffect(LibraryFixture.EffectOf(other, "pass-by"));

        Assert.Equal("early, late", string.Join(", ", Library.Effects(_take.Id).Select(e => e.Name)));
        Assert.Equal("pass-by, early, late", string.Join(", ", Library.Effects(_session.Id).Select(e => e.Name)));
    }

    [Theory]
    [InlineData("CREAK")]
    [InlineData("wood")]
    [InlineData("lower gate")]
    [InlineData("gates")]
    [InlineData("100%_wet")]
    public void SearchEffects_LooksInNotesTagsTokensTakeAndName(string text)
    {
        Library.SaveEffect(LibraryFixture.EffectOf(_take, "100%_wet") with
        {
            Tags = ["wood"],
            Notes = "creak",
            Tokens = new Dictionary<string, string>(StringComparer.Ordinal) { ["scene"] = "lower gate" },
        });
        Library.SaveEffect(LibraryFixture.EffectOf(_fixture.AddTake(_session, "boat", "boat.wav"), "1000 wet"));

        Assert.Equal("100%_wet", Assert.Single(Library.SearchEffects(text)).Name);
    }

    [Fact]
    public void AddDelivery_ComesBack_AndOutlivesItsEffect()
    {
        var effect = LibraryFixture.EffectOf(_take, "Gate closes");
        Library.SaveEffect(effect);
        DeliveredFile[] files = [new("stereo", "Gate closes.wav", 100, new string('b', 64)), new("recipe", "Gate closes.json", 10, new string('c', 64))];
        var delivery = new Delivery
        {
            Session = _session.Id,
            Folder = "/somewhere/delivered",
            Date = new DateTimeOffset(2026, 11, 26, 9, 0, 0, TimeSpan.Zero),
            Effects = [new(effect.Id, "Gate closes", files), new(null, "whole take", [])],
        };
        Library.AddDelivery(delivery);

        Assert.True(Library.RemoveEffect(effect.Id));

        var found = Assert.Single(Library.Deliveries());
        Assert.Equal(delivery with { Effects = found.Effects }, found);
        Assert.Equal(files, found.Effects[0].Files);
        Assert.Null(found.Effects[0].Effect);
        Assert.Equal("whole take", found.Effects[1].Name);
        Assert.False(Library.RemoveEffect(effect.Id));
    }

    public void Dispose() => _fixture.Dispose();
}
