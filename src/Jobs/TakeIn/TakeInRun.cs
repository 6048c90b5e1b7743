using System.Globalization;
using Athwart.Catalogue;

namespace Athwart.Jobs.TakeIn;

/// <summary>One run of the job over a listed card, with the session's lock held.</summary>
internal sealed class TakeInRun
{
    // Room for the catalogue and for what the file system keeps for itself.
    private const long Margin = 16 << 20;

    private readonly TakeInDisk _disk;
    private readonly Library _library;
    private readonly Session _session;
    private readonly CardListing _listing;
    private readonly ProgressMeter _progress;
    private readonly Recogniser _recogniser;
    private readonly FolderMaker _folders;
    private readonly Lock _turn = new();
    private readonly Dictionary<CardFile, TakenFile> _settled = new(ReferenceEqualityComparer.Instance);
    private readonly Dictionary<FileCopy, Decision> _decisions = new(ReferenceEqualityComparer.Instance);
    private readonly HashSet<string> _underWay = new(OperatingSystem.IsLinux() ? StringComparer.Ordinal : StringComparer.OrdinalIgnoreCase);
    private readonly List<Proved> _unrecorded = [];
    private bool _diskFull;
    private bool _copied;

    public TakeInRun(TakeInDisk disk, Library library, Session session, CardListing listing, ProgressMeter progress)
    {
        _disk = disk;
        _library = library;
        _session = session;
        _listing = listing;
        _progress = progress;
        _recogniser = new Recogniser(disk, library, session, listing.Files, _underWay.Contains);
        _folders = new FolderMaker(disk, library.Folder);
    }

    public TakeInReport Run(CancellationToken cancellation)
    {
        RemoveUnfinished();
        RefuseTooLittleSpace();
        var cancelled = false;
        try
        {
            TakeAll(cancellation);
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            cancelled = true;
        }

        RecordTheRest();
        return new()
        {
            LibraryFolder = _library.Folder,
            Session = _session,
            Files = [.. _listing.Files.Select(file => _settled.GetValueOrDefault(file) ?? NotReached(file))],
            Skipped = _listing.Skipped,
            ReadBack = !_copied ? ReadBackSource.Nothing : _disk.ReadsBackFromDisk ? ReadBackSource.Disk : ReadBackSource.SystemCache,
            Cancelled = cancelled,
            DiskFull = _diskFull,
            Elapsed = _progress.Elapsed,
        };
    }

    private void TakeAll(CancellationToken cancellation)
    {
        var waiting = new Queue<CardFile>(_listing.Files);
        while (waiting.Count > 0 && !Volatile.Read(ref _diskFull))
        {
            // A name that is still under way must be settled before the next file of that name is judged, so the pipeline is emptied.
            using var pipeline = new CopyPipeline(_disk, _progress, Settle);
            _underWay.Clear();
            try
            {
                while (waiting.TryPeek(out var file) && !Volatile.Read(ref _diskFull) && !_underWay.Contains(_recogniser.PlaceFor(file)))
                    Take(waiting.Dequeue(), pipeline, cancellation);
            }
            finally
            {
                pipeline.Finish();
            }
        }
    }

    private void Take(CardFile file, CopyPipeline pipeline, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        try
        {
            var decision = _recogniser.Decide(file, cancellation);
            if (decision.Kind == DecisionKind.Copy)
                Copy(file, decision, pipeline, cancellation);
            else
                Recognise(file, decision);
        }
        catch (FileFailure failure)
        {
            Fail(file, failure, "");
        }
    }

    private void Copy(CardFile file, Decision decision, CopyPipeline pipeline, CancellationToken cancellation)
    {
        var target = _library.FullPath(decision.Row.LibraryPath);
        _underWay.Add(decision.Row.LibraryPath);
        _folders.Make(Path.GetDirectoryName(target)!);
        var copy = new FileCopy(file, target);
        lock (_turn)
            _decisions.Add(copy, decision);
        pipeline.Copy(copy, cancellation);
    }

    /// <summary>Called on the verifier's thread.</summary>
    private void Settle(FileCopy copy, string sha256)
    {
        Decision decision;
        lock (_turn)
            _decisions.Remove(copy, out decision!);
        if (copy.Failure is { } failure)
        {
            if (failure.Differs)
                _library.SaveFile(decision.Row with { Sha256 = sha256, State = FileState.Refused });
            Fail(copy.Card, failure, sha256);
            return;
        }

        _copied = true;
        Record(new(copy.Card, decision.Row with { Sha256 = sha256 }, TakenFileStatus.Copied, Remarks(copy.Card, decision)));
        _progress.AddFile(0, copy.Card.CardPath);
    }

    private void Recognise(CardFile file, Decision decision)
    {
        if (decision.Kind == DecisionKind.Adopt)
        {
            Adopt(decision.Row);
            Record(new(file, decision.Row, TakenFileStatus.Adopted, Remarks(file, decision)));
        }
        else
        {
            Done(new(file, decision.Row, TakenFileStatus.AlreadyHere, Elsewhere(decision.Row)));
        }

        _progress.AddFile(file.Length, file.CardPath);
    }

    /// <summary>The interrupted run may have died before the new name was durable.</summary>
    private void Adopt(OriginalFile row)
    {
        try
        {
            var path = _library.FullPath(row.LibraryPath);
            using var handle = _disk.OpenCard(path);
            _disk.Seal(handle, row.Modified);
            _disk.SyncFolder(Path.GetDirectoryName(path)!);
        }
        catch (Exception error) when (FileFailure.IsFileError(error))
        {
            throw FileFailure.OfLibrary(error);
        }
    }

    /// <summary>Writes the row. On a full disk it is written at the end, when the failed copies have made room.</summary>
    private void Record(Proved proved)
    {
        try
        {
            _library.SaveFile(proved.Row);
            Done(proved);
        }
        catch (LibraryException error) when (error.Kind == LibraryErrorKind.DiskFull)
        {
            Volatile.Write(ref _diskFull, true);
            lock (_turn)
                _unrecorded.Add(proved);
        }
    }

    /// <summary>A proved copy that still finds no room for its row is adopted by the next run.</summary>
    private void RecordTheRest()
    {
        foreach (var proved in _unrecorded)
        {
            try
            {
                _library.SaveFile(proved.Row);
                Done(proved);
            }
            catch (LibraryException error) when (error.Kind == LibraryErrorKind.DiskFull)
            {
                Fail(proved.Card, new FileFailure($"The copy is sound, but the catalogue could not record it: {error.Message}", error) { DiskFull = true }, "");
            }
        }
    }

    private string Elsewhere(OriginalFile known) => known.Session == _session.Id ? "" : $"It was taken in with the session '{_library.GetSession(known.Session)?.Name}'.";

    private static string Remarks(CardFile file, Decision decision) => string.Join(' ', new[]
    {
        file.Length == 0 ? "The file is empty (0 bytes)." : "",
        decision.Renamed ? $"Another file of this name was here; this one is '{decision.Row.LibraryPath[(decision.Row.LibraryPath.LastIndexOf('/') + 1)..]}'." : "",
    }.Where(text => text.Length > 0));

    private void Done(Proved proved)
    {
        lock (_turn)
        {
            _settled[proved.Card] = new()
            {
                CardPath = proved.Card.CardPath,
                LibraryPath = proved.Row.LibraryPath,
                File = proved.Row.Id,
                Length = proved.Row.Length,
                Sha256 = proved.Row.Sha256,
                Status = proved.Status,
                Message = proved.Message,
            };
        }
    }

    private void Fail(CardFile file, FileFailure failure, string sha256)
    {
        if (failure.DiskFull)
            Volatile.Write(ref _diskFull, true);
        lock (_turn)
            _settled[file] = new() { CardPath = file.CardPath, Length = file.Length, Sha256 = failure.Differs ? sha256 : "", Status = failure.Cancelled ? TakenFileStatus.NotReached : TakenFileStatus.Failed, Message = failure.Message };
        _progress.AddFile(0, file.CardPath);
    }

    private TakenFile NotReached(CardFile file) => new()
    {
        CardPath = file.CardPath,
        Length = file.Length,
        Status = TakenFileStatus.NotReached,
        Message = _diskFull ? "The library's disk was full before its turn." : "The take-in ended before its turn. Run it again to go on.",
    };

    /// <summary>Parts that an interrupted run left. The lock is held, so they are nobody's.</summary>
    private void RemoveUnfinished()
    {
        try
        {
            foreach (var part in PartNames.Below(_library.FullPath(_session.Folder)).ToList())
                _disk.Delete(part);
        }
        catch (Exception error) when (FileFailure.IsFileError(error))
        {
            throw new TakeInException(TakeInErrorKind.LibraryNotWritable, _library.Folder, $"An unfinished copy cannot be removed ({error.Message}).", "Check the rights of the folder and the disk.", error);
        }
    }

    private void RefuseTooLittleSpace()
    {
        var needed = _listing.Files.Where(file => !_recogniser.MayBeHere(file)).Sum(file => file.Length);
        var free = _disk.FreeSpace(_library.Folder);
        if (needed == 0 || needed <= free - Margin)
            return;
        throw new TakeInException(
            TakeInErrorKind.NotEnoughSpace,
            _library.Folder,
            string.Create(CultureInfo.InvariantCulture, $"The card needs {needed / 1e6:0.0} MB and {Margin / 1e6:0} MB to spare, the library's disk has {free / 1e6:0.0} MB free; nothing was copied."),
            "Free some space or choose a library on another disk.");
    }

    /// <summary>A file that is proved to be in the library, with the row that says so.</summary>
    private sealed record Proved(CardFile Card, OriginalFile Row, TakenFileStatus Status, string Message);
}
