using Athwart.Jobs.TakeIn;

namespace Athwart.Jobs.Cards;

/// <summary>A folder that may be looked into for cards.</summary>
/// <param name="Root">The number of the place it lies in, from 0.</param>
/// <param name="Path">Relative to that place, with '/' between; empty for the place itself.</param>
/// <param name="Name">What to show for it.</param>
public sealed record CardFolder(int Root, string Path, string Name);

/// <summary>The only folders that can be looked into: places chosen at the start, cards as they come, and what lies below them. No text leads out.</summary>
/// <param name="chosen">Full paths of the chosen places; those that are not there are shown none the less.</param>
/// <param name="mounts">What is mounted now, asked again for each list; null for nothing but what was chosen.</param>
public sealed class CardFolders(IReadOnlyList<string> chosen, Func<IReadOnlyList<string>>? mounts = null)
{
    private const int MostListed = 500;
    private readonly Lock _turn = new();

    // A place keeps its number for as long as the desk runs, so that a card that comes or goes never makes another one of it.
    private readonly List<string> _roots = [.. chosen];

    /// <summary>Where the system mounts cards, as far as there is such a place now.</summary>
    public static IReadOnlyList<string> Mounts() =>
    [
        .. Below("/media").SelectMany(p => (string[])[p, .. Below(p)]).Concat(Below("/run/media").SelectMany(Below)).Concat(Below("/Volumes"))
            .Where(p => Below(p).Any() || Directory.EnumerateFiles(p).Any())
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>The places: those chosen, then the cards that are there now.</summary>
    public IReadOnlyList<CardFolder> Roots
    {
        get
        {
            var now = mounts?.Invoke() ?? [];
            lock (_turn)
            {
                _roots.AddRange(now.Except(_roots, StringComparer.Ordinal));
                return [.. _roots.Select((r, i) => new CardFolder(i, "", r)).Where(f => f.Root < chosen.Count || now.Contains(f.Name, StringComparer.Ordinal))];
            }
        }
    }

    /// <summary>The full path of a folder, links resolved.</summary>
    /// <exception cref="JobException">There is no such place, or the path leads out of it or to nothing.</exception>
    public string FullPath(int root, string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        var top = System.IO.Path.TrimEndingDirectorySeparator(CardListing.RealPath(Place(root)));
        if (path.Contains('\0', StringComparison.Ordinal) || System.IO.Path.IsPathRooted(path))
            throw Outside(path);
        // Resolved before it is judged: neither '..' nor a link on the card leads anywhere else.
        var full = System.IO.Path.TrimEndingDirectorySeparator(CardListing.RealPath(System.IO.Path.GetFullPath(System.IO.Path.Combine(top, path))));
        if (!full.Equals(top, StringComparison.Ordinal) && !full.StartsWith(top + System.IO.Path.DirectorySeparatorChar, StringComparison.Ordinal))
            throw Outside(path);
        return Directory.Exists(full) ? full : throw new JobException(JobErrorKind.WrongUse, $"The folder '{full}' is not there.", "Look whether the card is in the reader, and list the places again.");
    }

    /// <summary>The folders in a folder, by name; hidden ones and links are left out.</summary>
    /// <exception cref="JobException">As for <see cref="FullPath"/>, or it cannot be listed.</exception>
    public IReadOnlyList<CardFolder> In(int root, string path)
    {
        var full = FullPath(root, path);
        try
        {
            return
            [
                .. new DirectoryInfo(full).EnumerateDirectories()
                    .Where(d => d.LinkTarget is null && !SystemNames.Contains(d))
                    .OrderBy(d => d.Name, StringComparer.OrdinalIgnoreCase)
                    .Take(MostListed)
                    .Select(d => new CardFolder(root, path.Length == 0 ? d.Name : path + "/" + d.Name, d.Name)),
            ];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new JobException(JobErrorKind.Storage, $"The folder '{full}' cannot be listed ({e.Message}).", "Check its rights and the reader.", e);
        }
    }

    private string Place(int root)
    {
        lock (_turn)
        {
            return root >= 0 && root < _roots.Count
                ? _roots[root]
                : throw new JobException(JobErrorKind.WrongUse, "There is no such place.", "Choose one of those listed.");
        }
    }

    private static IEnumerable<string> Below(string folder)
    {
        try
        {
            return Directory.Exists(folder) ? Directory.GetDirectories(folder) : [];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }

    private static JobException Outside(string path) => new(JobErrorKind.WrongUse, $"'{path}' does not lie in a place that was chosen.", "Start the desk with --card-folder to name another place.");
}
