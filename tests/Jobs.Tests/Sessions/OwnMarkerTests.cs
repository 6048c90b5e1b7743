using Athwart.Catalogue;
using Athwart.Jobs.Markers;
using Athwart.Jobs.Tests.Deliver;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.Tests.Sessions;

/// <summary>Markers that the recordist sets later: refused where they make no sense, delivered as those of the recorder are.</summary>
public sealed class OwnMarkerTests : IDisposable
{
    private readonly SmallSession _session = new();
    private readonly TakeId _take;

    public OwnMarkerTests()
    {
        _session.Add("gate", frames: 30_000);
        _session.TakeIn();
        using var library = Library.Open(_session.Library, LibraryAccess.Write);
        _take = Jobs.Sessions.SessionLoader.Load(library, SmallSession.Session, CancellationToken.None).Takes[0].Catalogued.Id;
    }

    public void Dispose() => _session.Dispose();

    [Fact]
    public void AnOwnMarker_IsDelivered_InFramesOfTheFile()
    {
        ChangeMarkerJob.Run(new(_session.Library, null, Marker(12_000, 15_000, " chain ")));
        _session.Deliver();

        var stereo = Directory.GetFiles(_session.Folder, "*.wav").First(f => !f.Contains("midside", StringComparison.Ordinal));
        using var file = RecordingFile.Open(stereo);
        Assert.Equal(new Marker(12_000, 3000, "chain", ""), Assert.Single(file.Markers));
    }

    [Fact]
    public void AMarkerThatWasChangedElsewhere_IsNotOverwritten()
    {
        var marker = Marker(100, 100, "first");
        ChangeMarkerJob.Run(new(_session.Library, null, marker));
        ChangeMarkerJob.Run(new(_session.Library, marker, marker with { Label = "second" }));

        var refused = Assert.Throws<JobException>(() => ChangeMarkerJob.Run(new(_session.Library, marker, null)));
        Assert.Equal(JobErrorKind.Refused, refused.Kind);
        Assert.Throws<JobException>(() => ChangeMarkerJob.Run(new(_session.Library, null, Marker(29_000, 30_001, ""))));
        Assert.Throws<JobException>(() => ChangeMarkerJob.Run(new(_session.Library, null, Marker(0, 0, new string('x', ChangeMarkerJob.LongestLabel + 1)))));
    }

    private OwnMarker Marker(long from, long to, string label) => new(MarkerId.New(), _take, FrameRange.FromFrames(from, to), label);
}
