using Athwart.Jobs.CheckTakes;
using Athwart.Jobs.Cut;
using Athwart.Jobs.Deliver;
using Athwart.Jobs.Kits;
using Athwart.Jobs.Progress;
using Athwart.Jobs.Render;
using Athwart.Jobs.Sessions;
using Athwart.Jobs.TakeIn;
using Athwart.Jobs.Verify;
using Athwart.Quantities;

namespace Athwart.Jobs.Demo;

/// <summary>Where the demo is set up.</summary>
/// <param name="Folder">A folder that is not there yet, or is empty.</param>
public sealed record DemoRequest(string Folder);

/// <summary>What the demo made, step by step.</summary>
/// <param name="Card">The card that was generated.</param>
/// <param name="TakeIn">How it was taken in.</param>
/// <param name="Check">What the check found.</param>
/// <param name="Cuts">The cuts that were marked, a report a take.</param>
/// <param name="Delivery">What was delivered.</param>
/// <param name="Verify">That it is whole.</param>
/// <param name="LibraryFolder">The library.</param>
/// <param name="Session">The session's name.</param>
public sealed record DemoReport(
    DemoCardReport Card,
    TakeInReport TakeIn,
    CheckReport Check,
    IReadOnlyList<CutReport> Cuts,
    DeliverReport Delivery,
    VerifyReport Verify,
    string LibraryFolder,
    string Session);

/// <summary>The whole day on an invented card: a canal lock and its lift bridge.</summary>
public static class DemoJob
{
    private const string Session = "Canal lock, spring";

    private static readonly DateOnly Day = new(2026, 5, 14);

    /// <summary>The side level of the demo: a common first choice, no more than that.</summary>
    private static readonly Decibels SideLevel = new(-3);

    /// <summary>Generates, takes in, checks, cuts, delivers and verifies.</summary>
    /// <exception cref="JobException">The folder holds something already.</exception>
    public static DemoReport Run(DemoRequest request, IProgress<JobProgress>? progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        var folder = Path.GetFullPath(request.Folder);
        if (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any())
            throw new JobException(JobErrorKind.Refused, $"'{folder}' is not empty.", "Name another folder with --folder, or move that one away.");
        var (cardFolder, library) = (Path.Combine(folder, "card"), Path.Combine(folder, "library"));
        var card = DemoCard.Write(cardFolder, Forward<DemoProgress>(progress, p => new("Recording the card: " + p.Title, p.TakesDone, p.TakeCount, "takes")), cancellation);
        var takeIn = new TakeInJob().Run(
            new() { Sources = [cardFolder], LibraryFolder = library, SessionName = Session, Date = Day },
            Forward<TakeInProgress>(progress, p => new("Taking in " + p.CurrentFile, p.BytesDone, p.BytesTotal, "bytes")),
            cancellation);
        KitImportJob.Run(new() { Library = library, Demo = true });
        var check = CheckSessionJob.Run(new(library, Session, null, SideLevel, Environment.ProcessorCount), progress, cancellation);
        var cuts = Cut(library, cancellation);
        var delivery = new DeliverJob().Run(Delivery(library, folder), progress, cancellation);
        return new(card, takeIn, check, cuts, delivery, VerifyJob.Run(new(delivery.Folder), progress, cancellation), library, Session);
    }

    // Takes with markers are cut at them; the others are one effect each.
    private static List<CutReport> Cut(string library, CancellationToken cancellation)
    {
        var contents = ListJob.Session(library, Session, cancellation);
        return
        [
            .. contents.Takes.Takes.Select(take => CutJob.Run(
                new()
                {
                    Library = library,
                    Session = Session,
                    Take = take.Name,
                    Source = take.Description.Markers.Count > 0 ? CutSource.Markers : CutSource.Whole,
                },
                cancellation)),
        ];
    }

    private static DeliverRequest Delivery(string library, string folder) => new()
    {
        Library = library,
        Session = Session,
        Folder = Path.Combine(folder, "delivered"),
        Title = "The canal lock and its lift bridge",
        SideLevel = SideLevel,
        Trim = new(TrimKind.Ceiling, -1),
        Mono = true,
        Recordist = "Athwart demo",
    };

    private static Relay<T>? Forward<T>(IProgress<JobProgress>? progress, Func<T, JobProgress> translate) =>
        progress is null ? null : new Relay<T>(progress, translate);

    private sealed class Relay<T>(IProgress<JobProgress> target, Func<T, JobProgress> translate) : IProgress<T>
    {
        public void Report(T value) => target.Report(translate(value));
    }
}
