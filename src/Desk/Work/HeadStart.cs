using Athwart.Catalogue;

namespace Athwart.Desk.Work;

/// <summary>What the first page needs from the library is asked once on another processor while the web server is put together: database code is then loaded and the file warm.</summary>
internal static class HeadStart
{
    /// <summary>Begins; nobody waits for it, and what goes wrong is told by the page that meets it.</summary>
    public static void Begin(DeskOptions options) => _ = Task.Run(() =>
    {
        try
        {
            if (!File.Exists(Path.Combine(options.Library, Library.DatabaseName)))
                return;
            using var library = Library.Open(options.Library, LibraryAccess.Read);
            if (library.Sessions() is [var newest, ..])
                library.Summaries(newest.Id);
        }
        catch (Exception e) when (e is LibraryException or IOException or UnauthorizedAccessException)
        {
            // The page says it.
        }
    });
}
