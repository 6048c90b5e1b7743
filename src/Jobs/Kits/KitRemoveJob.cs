using Athwart.Catalogue;

namespace Athwart.Jobs.Kits;

/// <summary>Removes things of the kit.</summary>
public static class KitRemoveJob
{
    /// <summary>Removes one thing by its name, letter case aside, or all things of several names: all or nothing.</summary>
    /// <returns>The names as they were kept.</returns>
    /// <exception cref="JobException">There is nothing of a name, or several kinds of thing have it.</exception>
    /// <exception cref="LibraryException">The library cannot be used.</exception>
    public static IReadOnlyList<string> Run(string libraryFolder, IReadOnlyList<string> names)
    {
        ArgumentNullException.ThrowIfNull(names);
        using var library = Library.Open(libraryFolder, LibraryAccess.Write);
        var removed = new List<string>();
        library.Transaction(() =>
        {
            foreach (var name in names)
                removed.Add(Remove(library, name));
        });
        return removed;
    }

    // By the rows and not by the kit, so that a thing that cannot be read can be removed too. 'recorder:NAME' says which kind.
    private static string Remove(Library library, string wanted)
    {
        var items = library.KitItems();
        var matches = items.Where(i => i.Name.Equals(wanted, StringComparison.OrdinalIgnoreCase) || $"{i.Kind}:{i.Name}".Equals(wanted, StringComparison.OrdinalIgnoreCase)).ToList();
        if (matches.Count == 0)
            throw new JobException(JobErrorKind.WrongUse, $"The kit has nothing of the name '{wanted}'.", items.Count == 0 ? "It is empty." : $"The nearest is '{HeaderText.Nearest(wanted, items.Select(i => i.Name))}'.");
        if (matches.Count > 1)
            throw new JobException(JobErrorKind.WrongUse, $"'{wanted}' means several things.", $"Write {string.Join(" or ", matches.Select(m => $"'{m.Kind}:{m.Name}'"))}.");
        library.RemoveKitItem(matches[0].Kind, matches[0].Name);
        return matches[0].Name;
    }
}
