using Athwart.Quantities;
using Athwart.Tests.Shared;

namespace Athwart.Catalogue.Tests;

/// <summary>A new library in a temporary folder, with the canal lock's things to put into it.</summary>
internal sealed class LibraryFixture : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public LibraryFixture() => Library = Library.Open(Folder, LibraryAccess.Create);

    public string Folder => _folder.Path;

    public Library Library { get; }

    public static DateOnly Day { get; } = new(2026, 11, 25);

    public Session AddSession(string name = "Canal lock") => Library.AddSession(new Session { Name = name, Date = Day });

    public OriginalFile AddFile(Session session, string cardPath)
    {
        var file = FileOf(session, cardPath);
        Library.SaveFile(file);
        return file;
    }

    public CataloguedTake AddTake(Session session, string name, params string[] cardPaths)
    {
        var take = TakeOf(session, name, [.. cardPaths.Select(path => AddFile(session, path))]);
        Library.AddTake(take);
        return take;
    }

    public static OriginalFile FileOf(Session session, string cardPath) => new()
    {
        Session = session.Id,
        LibraryPath = $"{session.Folder}/{cardPath}",
        CardPath = cardPath,
        Length = 1234,
        Sha256 = new string('a', 64),
        Modified = new DateTimeOffset(2026, 11, 25, 8, 30, 0, 123, TimeSpan.FromHours(1)),
        State = FileState.Verified,
    };

    public static CataloguedTake TakeOf(Session session, string name, params OriginalFile[] files) => new()
    {
        Session = session.Id,
        Name = name,
        Parts = [.. files.Select((file, index) => new CataloguedPart(file.Id, default, new FrameCount(96000), index, 1))],
        ChannelCount = files.Length,
        SampleRateHertz = 96000,
        Format = "24-bit integer",
        Length = new FrameCount(96000),
        Join = "mono-pair",
        JoinEvidence = ["one name stem", "équal length"],
        RoleEvidence = "iXML track functions",
    };

    public static Effect EffectOf(CataloguedTake take, string name) => new() { Take = take.Id, Name = name, Range = FrameRange.FromFrames(4800, 9600) };

    public void Dispose()
    {
        Library.Dispose();
        _folder.Dispose();
    }
}
