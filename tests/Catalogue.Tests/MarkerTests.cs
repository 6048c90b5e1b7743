using Athwart.Quantities;

namespace Athwart.Catalogue.Tests;

public sealed class MarkerTests : IDisposable
{
    private readonly LibraryFixture _fixture = new();
    private readonly CataloguedTake _take;

    public MarkerTests() => _take = _fixture.AddTake(_fixture.AddSession(), "gates", "gates.wav");

    private Library Library => _fixture.Library;

    public void Dispose() => _fixture.Dispose();

    [Fact]
    public void Markers_AreKept_InTheOrderOfTheTake()
    {
        var late = new OwnMarker(MarkerId.New(), _take.Id, FrameRange.FromFrames(9000, 9000), "gate shuts");
        var early = new OwnMarker(MarkerId.New(), _take.Id, FrameRange.FromFrames(100, 4000), "");
        Library.SaveMarker(late);
        Library.SaveMarker(early);
        Assert.Equal([early, late], Library.Markers(_take.Id));

        Library.SaveMarker(late with { Range = FrameRange.FromFrames(50, 50), Label = "chain" });
        Assert.Equal(["chain", ""], Library.Markers(_take.Id).Select(m => m.Label), StringComparer.Ordinal);
        Assert.True(Library.RemoveMarker(early.Id));
        Assert.False(Library.RemoveMarker(early.Id));
        Assert.Equal(50, Library.GetMarker(late.Id)!.Range.From.Value);
        Assert.Null(Library.GetMarker(early.Id));
    }

    [Fact]
    public void AMarkerOfNoTake_IsRefused() =>
        Assert.Throws<LibraryException>(() => Library.SaveMarker(new(MarkerId.New(), TakeId.New(), FrameRange.FromFrames(0, 0), "")));
}
