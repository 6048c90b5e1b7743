using System.Globalization;
using Athwart.Catalogue;

namespace Athwart.Jobs.TakeIn;

/// <summary>Decides for one file of the card: known, adopted, or to be copied, and under which name.</summary>
internal sealed class Recogniser(TakeInDisk disk, Library library, Session session, IReadOnlyList<CardFile> files, Func<string, bool> isUnderWay)
{
    private readonly HashSet<string> _cardPaths = files.Select(f => f.CardPath).ToHashSet(StringComparer.Ordinal);

    /// <summary>Where a file belongs, relative to the library, unless another has its name.</summary>
    public string PlaceFor(CardFile file) => PlaceFor(file, 1);

    /// <summary>Whether the library may hold the file already, judged without reading it; used to estimate the space needed.</summary>
    public bool MayBeHere(CardFile file)
    {
        var there = new FileInfo(library.FullPath(PlaceFor(file)));
        return (there.Exists && there.Length == file.Length) || Candidates(file).Any();
    }

    /// <summary>Decides. The file on the card is read to its end only when something in the library could be equal to it.</summary>
    public Decision Decide(CardFile file, CancellationToken cancellation)
    {
        var card = new Lazy<string>(() => HashCard(file, cancellation), LazyThreadSafetyMode.None);
        foreach (var known in Candidates(file))
        {
            if (card.Value.Equals(known.Sha256, StringComparison.Ordinal))
                return new(DecisionKind.AlreadyHere, known, card.Value);
        }

        for (var number = 1; ; number++)
        {
            var place = PlaceFor(file, number);
            if (isUnderWay(place))
                continue;
            var row = RowFor(file, place);
            if (FileAt(place) is not { } there)
                return new(DecisionKind.Copy, row, "") { Renamed = number > 1 };
            if (there.Length == file.Length && IsFree(place) && HashCopy(there.FullName, cancellation).Equals(card.Value, StringComparison.Ordinal))
                return new(DecisionKind.Adopt, row with { Sha256 = card.Value }, card.Value) { Renamed = number > 1 };
        }
    }

    /// <summary>
    /// Verified files this one could be equal to: of its length, whole on the disk, and from the same place on a card, or of the
    /// same name from a place that is not on this card. Content alone does not count: the two silent halves of a mono pair are
    /// equal and both are wanted.
    /// </summary>
    private IEnumerable<OriginalFile> Candidates(CardFile file) => library.FilesOfLength(file.Length)
        .Where(known => known.CardPath.Equals(file.CardPath, StringComparison.Ordinal)
            || (known.OriginalName.Equals(file.Name, StringComparison.Ordinal) && !_cardPaths.Contains(known.CardPath)))
        .Where(known => FileAt(known.LibraryPath) is { } there && there.Length == known.Length)
        .OrderByDescending(known => known.Session == session.Id)
        .ThenByDescending(known => known.CardPath.Equals(file.CardPath, StringComparison.Ordinal));

    private string PlaceFor(CardFile file, int number)
    {
        var path = $"{session.Folder}/{file.CardPath}";
        if (number == 1)
            return path;
        var ending = Path.GetExtension(file.Name);
        return string.Create(CultureInfo.InvariantCulture, $"{path[..^ending.Length]} ({number}){ending}");
    }

    /// <summary>The row that lies at the place, if its copy was lost or never finished; else a new one.</summary>
    private OriginalFile RowFor(CardFile file, string place) => new()
    {
        Id = library.GetFileAt(place)?.Id ?? FileId.New(),
        Session = session.Id,
        LibraryPath = place,
        CardPath = file.CardPath,
        Length = file.Length,
        Modified = file.Modified,
        State = FileState.Verified,
    };

    private bool IsFree(string place) => library.GetFileAt(place) is not { State: FileState.Verified };

    private FileInfo? FileAt(string libraryPath)
    {
        var info = new FileInfo(library.FullPath(libraryPath));
        return info.Exists ? info : Directory.Exists(info.FullName) ? throw new FileFailure($"A folder lies in the library where this file belongs ('{libraryPath}'). Move it away, then run this again.") : null;
    }

    private string HashCard(CardFile file, CancellationToken cancellation)
    {
        try
        {
            using var handle = disk.OpenCard(file.FullPath);
            return ContentHash.Of(handle, (h, block, offset) => disk.ReadCard(h, block, offset), cancellation);
        }
        catch (Exception error) when (FileFailure.IsFileError(error))
        {
            throw FileFailure.OfCard(error);
        }
    }

    private string HashCopy(string path, CancellationToken cancellation)
    {
        try
        {
            using var handle = disk.OpenCard(path);
            disk.Settle(handle, 0, RandomAccess.GetLength(handle));
            return ContentHash.Of(handle, (h, block, offset) => disk.ReadBack(h, block, offset), cancellation);
        }
        catch (Exception error) when (FileFailure.IsFileError(error))
        {
            throw FileFailure.OfLibrary(error);
        }
    }
}

/// <summary>What is to happen to a file.</summary>
internal enum DecisionKind
{
    Copy = 0,
    AlreadyHere,
    Adopt,
}

/// <summary>A decision, with the row it leads to.</summary>
internal sealed record Decision(DecisionKind Kind, OriginalFile Row, string Sha256)
{
    /// <summary>Whether another file had the name.</summary>
    public bool Renamed { get; init; }
}
