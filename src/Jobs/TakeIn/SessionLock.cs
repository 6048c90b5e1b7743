using Athwart.Catalogue;

namespace Athwart.Jobs.TakeIn;

/// <summary>
/// One take-in at a time writes into a session's folder, so unfinished copies found there are nobody's. The system lets go of
/// the lock when the process ends, however it ends.
/// </summary>
internal static class SessionLock
{
    private const string FolderName = "locks";

    public static FileStream Take(Library library, Session session)
    {
        var folder = Path.Combine(library.Folder, FolderName);
        try
        {
            Directory.CreateDirectory(folder);
            return new FileStream(Path.Combine(folder, $"take-in-{session.Id}.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException error)
        {
            throw new TakeInException(TakeInErrorKind.SessionBusy, library.Folder, $"Another process is taking a card into the session '{session.Name}'.", "Wait for it to end, then run this again.", error);
        }
        catch (UnauthorizedAccessException error)
        {
            throw new TakeInException(TakeInErrorKind.LibraryNotWritable, library.Folder, $"The library cannot be written ({error.Message}).", "Check the rights of the folder.", error);
        }
    }
}
