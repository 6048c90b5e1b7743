using Athwart.Catalogue;

namespace Athwart.Jobs.Find;

/// <summary>What to look for.</summary>
/// <param name="Library">The library's folder.</param>
/// <param name="Text">Words; an effect is found when each begins a word of its name, notes, tags, tokens, take or session.</param>
/// <param name="Most">How many to give at the most.</param>
public sealed record FindRequest(string Library, string Text, int Most = 100);

/// <summary>Finds effects in the library.</summary>
public static class FindJob
{
    /// <summary>Runs it.</summary>
    /// <exception cref="LibraryException">The library cannot be used.</exception>
    public static FoundEffects Run(FindRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        using var library = Library.Open(request.Library, LibraryAccess.Read);
        return Run(library, request.Text, request.Most);
    }

    /// <summary>In a library that is open.</summary>
    public static FoundEffects Run(Library library, string text, int most)
    {
        ArgumentNullException.ThrowIfNull(library);
        return library.FindEffects(text, most);
    }
}
