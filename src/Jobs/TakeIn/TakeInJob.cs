using Athwart.Catalogue;

namespace Athwart.Jobs.TakeIn;

/// <summary>
/// Takes a card in: copies every regular file into the originals of a library, proves each copy by reading it back from the
/// disk, and records it. The card is only ever read.
/// </summary>
/// <remarks>
/// May be killed at any moment and run again: a copy has its final name only once it is proved, and the catalogue is changed
/// only after that. What is finished is recognised by its content, never by its date.
/// </remarks>
public sealed class TakeInJob
{
    private readonly TimeProvider _time;
    private readonly TakeInDisk _disk;

    /// <summary>A job.</summary>
    /// <param name="time">Measures the rate; the system's clock unless said.</param>
    public TakeInJob(TimeProvider? time = null)
        : this(time ?? TimeProvider.System, new TakeInDisk())
    {
    }

    internal TakeInJob(TimeProvider time, TakeInDisk disk)
    {
        _time = time;
        _disk = disk;
    }

    /// <summary>Runs to the end. One file's failure does not stop the others; a full disk and a cancellation do, and the report says so.</summary>
    /// <param name="request">Which card, where to.</param>
    /// <param name="progress">Told several times a second, from several threads, one at a time.</param>
    /// <param name="cancellation">Ends the job cleanly: what is finished stays, the unfinished copy is thrown away, and the report comes back with <see cref="TakeInReport.Cancelled"/>.</param>
    /// <exception cref="TakeInException">The card is not there, the library lies on it, its disk has too little space, or another take-in of this session runs.</exception>
    /// <exception cref="LibraryException">The library cannot be used.</exception>
    public TakeInReport Run(TakeInRequest request, IProgress<TakeInProgress>? progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        RefuseLibraryOnCard(request);
        var listing = CardListing.Of(request.Sources);
        using var library = Library.Open(request.LibraryFolder, LibraryAccess.Create);
        var session = library.GetOrAddSession(request.SessionName, request.Date);
        using var turn = SessionLock.Take(library, session);
        var run = new TakeInRun(_disk, library, session, listing, new ProgressMeter(progress, _time, listing.Files));
        return run.Run(cancellation);
    }

    private static void RefuseLibraryOnCard(TakeInRequest request)
    {
        var library = CardListing.RealPath(Path.GetFullPath(request.LibraryFolder)) + Path.DirectorySeparatorChar;
        foreach (var source in request.Sources)
        {
            var card = Path.TrimEndingDirectorySeparator(CardListing.RealPath(Path.GetFullPath(source))) + Path.DirectorySeparatorChar;
            if (library.StartsWith(card, StringComparison.Ordinal))
                throw new TakeInException(TakeInErrorKind.LibraryOnCard, source, "The library lies on the card, and the card is never written.", "Choose a library folder elsewhere.");
        }
    }
}
