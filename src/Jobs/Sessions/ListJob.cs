using Athwart.Catalogue;
using Athwart.Quantities;

namespace Athwart.Jobs.Sessions;

/// <summary>A session of a library and how much it holds.</summary>
/// <param name="Session">The session.</param>
/// <param name="Takes">How many takes are known.</param>
/// <param name="Effects">How many cuts are marked.</param>
public sealed record SessionSummary(Session Session, int Takes, int Effects);

/// <summary>The takes of a session with the cuts marked in each.</summary>
/// <param name="Takes">The session's takes.</param>
/// <param name="Effects">The cuts of each take, by the take's name.</param>
public sealed record SessionContents(SessionTakes Takes, IReadOnlyDictionary<string, IReadOnlyList<Effect>> Effects)
{
    /// <summary>How many findings of which severity the last check left, by the take's name; a take with none is not named.</summary>
    public ILookup<string, (FindingSeverity Severity, int Count)> Found { get; init; } = Enumerable.Empty<string>().ToLookup(n => n, _ => (FindingSeverity.Note, 0), StringComparer.Ordinal);
}

/// <summary>Lists what a library holds.</summary>
public static class ListJob
{
    /// <summary>Every session, latest first.</summary>
    /// <exception cref="LibraryException">The library cannot be used.</exception>
    public static IReadOnlyList<SessionSummary> Sessions(string libraryFolder)
    {
        using var library = Library.Open(libraryFolder, LibraryAccess.Write);
        return [.. library.Sessions().Select(s => new SessionSummary(s, library.Takes(s.Id).Count, library.Effects(s.Id).Count))];
    }

    /// <summary>One session.</summary>
    /// <exception cref="LibraryException">The library cannot be used, or has no such session.</exception>
    public static SessionContents Session(string libraryFolder, string session, CancellationToken cancellation)
    {
        using var library = Library.Open(libraryFolder, LibraryAccess.Write);
        var takes = SessionLoader.Load(library, session, cancellation);
        var names = takes.Takes.ToDictionary(t => t.Catalogued.Id, t => t.Name);
        return new(takes, takes.Takes.ToDictionary(t => t.Name, t => library.Effects(t.Catalogued.Id), StringComparer.Ordinal))
        {
            Found = library.FindingCounts(takes.Session.Id).Where(c => names.ContainsKey(c.Take)).ToLookup(c => names[c.Take], c => (c.Severity, c.Count), StringComparer.Ordinal),
        };
    }
}
