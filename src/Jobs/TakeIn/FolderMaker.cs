namespace Athwart.Jobs.TakeIn;

/// <summary>Makes folders below the library so that they outlast a power cut: each new name is flushed in the folder above it.</summary>
internal sealed class FolderMaker(TakeInDisk disk, string library)
{
    private readonly HashSet<string> _made = new(StringComparer.Ordinal) { library };

    /// <exception cref="FileFailure">A folder could not be made.</exception>
    public void Make(string folder)
    {
        if (!_made.Add(folder))
            return;
        var parent = Path.GetDirectoryName(folder)!;
        Make(parent);
        try
        {
            disk.CreateFolder(folder);
            disk.SyncFolder(parent);
        }
        catch (Exception error) when (FileFailure.IsFileError(error))
        {
            _made.Remove(folder);
            throw FileFailure.OfLibrary(error);
        }
    }
}
