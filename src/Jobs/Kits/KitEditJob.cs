using System.Text;
using Athwart.Catalogue;

namespace Athwart.Jobs.Kits;

/// <summary>A thing of the kit as it was edited by hand.</summary>
public sealed record KitEditRequest
{
    /// <summary>The library's folder; made when there is none.</summary>
    public required string Library { get; init; }

    /// <summary>'microphone', 'recorder' or 'protection'.</summary>
    public required string Kind { get; init; }

    /// <summary>The columns of the rows.</summary>
    public required IReadOnlyList<string> Columns { get; init; }

    /// <summary>The rows as they are to be; empty removes the thing.</summary>
    public required IReadOnlyList<IReadOnlyList<string>> Rows { get; init; }

    /// <summary>The rows as they were when the editing began; empty for a new thing.</summary>
    public IReadOnlyList<IReadOnlyList<string>> Before { get; init; } = [];
}

/// <summary>Changes one thing of the kit: added, replaced, renamed or removed, or nothing is done.</summary>
public static class KitEditJob
{
    /// <summary>Runs it.</summary>
    /// <returns>The faults, if any; the kit is then as it was.</returns>
    /// <exception cref="JobException">The thing was changed by somebody else meanwhile, or the new name is taken.</exception>
    /// <exception cref="LibraryException">The library cannot be used.</exception>
    public static KitImportReport Run(KitEditRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        using var library = Library.Open(request.Library, LibraryAccess.Create);
        var reading = new KitReading();
        if (request.Rows.Count > 0)
            KitFiles.Read("the " + request.Kind, Encoding.UTF8.GetBytes(KitTable.Csv(request.Columns, request.Rows)), reading);
        reading.Check();
        if (reading.Faults.Count > 0)
            return new([], [], [], reading.Faults, reading.Unusual);
        var before = NameOf(request.Before);
        var after = NameOf(request.Rows);
        library.Transaction(() =>
        {
            RefuseStale(library, request, before);
            if (after is not null && !string.Equals(before, after, StringComparison.OrdinalIgnoreCase))
                RefuseTaken(library, request.Kind, after);
            if (before is not null && !string.Equals(before, after, StringComparison.Ordinal))
                library.RemoveKitItem(request.Kind, before);
            KitStore.Save(library, reading.Kit);
        });
        return new(before is null && after is not null ? [after] : [], before is not null && after is not null ? [after] : [], [], [], reading.Unusual);
    }

    private static string? NameOf(IReadOnlyList<IReadOnlyList<string>> rows) => rows.Count == 0 ? null : rows[0][0];

    private static void RefuseStale(Library library, KitEditRequest request, string? before)
    {
        if (before is null)
            return;
        var now = KitTable.Of(KitStore.Load(library)).First(t => string.Equals(t.Kind, request.Kind, StringComparison.Ordinal)).RowsOf(before);
        if (now.Count != request.Before.Count || now.Zip(request.Before).Any(pair => !pair.First.SequenceEqual(pair.Second, StringComparer.Ordinal)))
            throw new JobException(JobErrorKind.Refused, $"'{before}' was changed or removed meanwhile, in another window or by a command.", "Look at it again and make your change anew.");
    }

    private static void RefuseTaken(Library library, string kind, string name)
    {
        if (library.KitItems().Any(i => string.Equals(i.Kind, kind, StringComparison.Ordinal) && string.Equals(i.Name, name, StringComparison.OrdinalIgnoreCase)))
            throw new JobException(JobErrorKind.Refused, $"The kit has a {kind} '{name}' already.", "Give this one another name.");
    }
}
