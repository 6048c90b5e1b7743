using Athwart.Catalogue;
using Athwart.Quantities;

namespace Athwart.Jobs.Sessions;

/// <summary>Sets the side level that holds for the takes of a session unless a cut says otherwise.</summary>
public static class SessionLevelJob
{
    /// <summary>Keeps it.</summary>
    /// <param name="libraryFolder">The library's folder.</param>
    /// <param name="session">The session.</param>
    /// <param name="sideLevel">The side level; −∞ is mono.</param>
    /// <exception cref="JobException">There is no such session.</exception>
    /// <exception cref="LibraryException">The library cannot be used.</exception>
    public static void Run(string libraryFolder, SessionId session, Decibels sideLevel)
    {
        using var library = Library.Open(libraryFolder, LibraryAccess.Write);
        library.Transaction(() =>
        {
            var now = library.GetSession(session) ?? throw new JobException(JobErrorKind.WrongUse, "The session is no longer there.", "Choose another session.");
            library.UpdateSession(now with { Defaults = now.Defaults with { SideLevel = sideLevel } });
        });
    }
}
