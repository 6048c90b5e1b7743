using Athwart.Jobs.Cut;
using Athwart.Jobs.Deliver;
using Athwart.Jobs.TakeIn;
using Athwart.Jobs.Tests.Render;
using Athwart.Quantities;
using Athwart.Recordings;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.Deliver;

/// <summary>A library with a small session in it, and whatever a test asks of it.</summary>
internal sealed class SmallSession : IDisposable
{
    public const string Session = "Lock";

    private readonly TemporaryFolder _folder = new();

    public string Root => _folder.Path;

    public string Card => _folder.File("card");

    public string Library => _folder.File("library");

    public string Folder => _folder.File("delivered");

    /// <summary>Puts a take on the card.</summary>
    public SmallSession Add(string name, double level = 0.3, int channels = 2, int frames = 9600, int seed = 1, IReadOnlyList<Marker>? markers = null)
    {
        Directory.CreateDirectory(Card);
        TestTakes.Write(Path.Combine(Card, name + ".wav"), SampleFormat.Int24, frames, level, channels: channels, seed: seed, markers: markers);
        return this;
    }

    public TakeInReport TakeIn() =>
        new TakeInJob().Run(new() { Sources = [Card], LibraryFolder = Library, SessionName = Session, Date = new(2026, 5, 14) }, null, CancellationToken.None);

    public CutReport Cut(string take, string? name = null, CutSource source = CutSource.Given, TakePlace? from = null, TakePlace? to = null, double fadeSeconds = 0) => CutJob.Run(
        new()
        {
            Library = Library,
            Session = Session,
            Take = take,
            Source = source,
            Name = name,
            From = from ?? TakePlace.Start,
            To = to ?? TakePlace.End,
            FadeIn = TimeSpan.FromSeconds(fadeSeconds),
        },
        CancellationToken.None);

    public DeliverRequest Request => RequestFor(Library, Folder);

    public static DeliverRequest RequestFor(string library, string folder) =>
        new() { Library = library, Session = Session, Folder = folder, SideLevel = new Decibels(-3), Threads = 2 };

    public DeliverReport Deliver(DeliverRequest? request = null) => new DeliverJob().Run(request ?? Request, null, CancellationToken.None);

    public void Dispose() => _folder.Dispose();
}
