using Athwart.Catalogue;

namespace Athwart.Jobs.Listening;

/// <summary>Keeps the takes a person is listening to open between requests, and their peaks at hand. Safe with any number of threads.</summary>
/// <remarks>A take whose roles are changed is opened anew at the next request, under another key.</remarks>
public sealed class ListeningRoom : IDisposable
{
    /// <summary>The folder below the library for what can be made again at any time.</summary>
    public const string CacheName = "cache";

    private const int MostOpen = 8;
    private readonly string _libraryFolder;
    private readonly Lock _lock = new();
    private readonly List<OpenedTake> _open = [];
    private bool _disposed;

    /// <summary>For the takes of one library.</summary>
    /// <param name="libraryFolder">The folder of the library.</param>
    public ListeningRoom(string libraryFolder)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(libraryFolder);
        _libraryFolder = Path.GetFullPath(libraryFolder);
    }

    /// <summary>Opens a take or hands out the one that is open; dispose of it when the request is served.</summary>
    /// <param name="id">The take.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="LibraryException">There is no such take, or the library cannot be used.</exception>
    /// <exception cref="JobException">The files are not the take any more.</exception>
    public TakeLease Rent(TakeId id, CancellationToken cancellation)
    {
        using var library = Library.Open(_libraryFolder, LibraryAccess.Read);
        var fingerprint = ListeningTake.Fingerprint(library, id);
        lock (_lock)
        {
            ObjectDisposedException.ThrowIf(_disposed, this);
            if (Known(id, fingerprint) is { } found)
                return found.Rent();
        }

        // Opened outside the lock: reading headers may take a while, and others listen meanwhile.
        var take = ListeningTake.Open(library, id, cancellation);
        return Enter(new OpenedTake(id, fingerprint, take, PeakPath(take.Key)));
    }

    /// <summary>Closes the takes that no request is using, the others when their requests end, and stops making peaks.</summary>
    public void Dispose()
    {
        lock (_lock)
        {
            _disposed = true;
            foreach (var opened in _open)
                opened.Retire();
            _open.Clear();
        }
    }

    // Somebody may have opened the same take meanwhile, and its peaks may be half made: the first stays.
    private TakeLease Enter(OpenedTake opened)
    {
        lock (_lock)
        {
            if (!_disposed && Known(opened.Id, opened.Fingerprint) is null)
            {
                _open.RemoveAll(o => o.Id == opened.Id && o.Retire());
                _open.Insert(0, opened);
                CloseIdle();
                return opened.Rent();
            }

            opened.Retire();
            ObjectDisposedException.ThrowIf(_disposed, this);
            return Known(opened.Id, opened.Fingerprint)!.Rent();
        }
    }

    // The longest open first. What somebody listens to or what is being drawn is never closed to make room.
    private void CloseIdle()
    {
        for (var n = _open.Count - 1; n > 0 && _open.Count > MostOpen; n--)
        {
            if (!_open[n].IsIdle)
                continue;
            _open[n].Retire();
            _open.RemoveAt(n);
        }
    }

    private OpenedTake? Known(TakeId id, string fingerprint) => _open.Find(o => o.Id == id && string.Equals(o.Fingerprint, fingerprint, StringComparison.Ordinal));

    private string PeakPath(string key) => Path.Combine(_libraryFolder, CacheName, "peaks", key + ".peaks");
}
