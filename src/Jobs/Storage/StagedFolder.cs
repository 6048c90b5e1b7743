namespace Athwart.Jobs.Storage;

/// <summary>
/// A folder that appears whole or not at all: made under another name beside its place, then renamed. One process at a time
/// works on one place; the system lets go of the lock when the process ends, however it ends, and the next one clears what it left.
/// </summary>
internal sealed class StagedFolder : IDisposable
{
    private readonly string _folder;
    private readonly FileStream _turn;

    private StagedFolder(string folder, FileStream turn)
    {
        _folder = folder;
        _turn = turn;
        // Beside the target, so that the last step is one rename on one file system and relative paths stay the same.
        Path = Beside(folder, ".unfinished");
        Clear();
        Directory.CreateDirectory(Path);
    }

    /// <summary>Where the files are made.</summary>
    public string Path { get; }

    /// <summary>Begins a folder.</summary>
    /// <param name="folder">Its place in the end; absolute, without a separator at the end.</param>
    /// <exception cref="JobException">It holds something already, or another process is making it.</exception>
    public static StagedFolder Begin(string folder)
    {
        var parent = System.IO.Path.GetDirectoryName(folder) ?? throw new JobException(JobErrorKind.Refused, $"'{folder}' is a whole disk.", "Name a folder in it.");
        Directory.CreateDirectory(parent);
        var turn = Lock(folder);
        try
        {
            RequireFree(folder);
            return new(folder, turn);
        }
        catch
        {
            turn.Dispose();
            throw;
        }
    }

    /// <summary>Puts the folder in its place.</summary>
    public void Complete()
    {
        if (Directory.Exists(_folder))
            Directory.Delete(_folder);
        Directory.Move(Path, _folder);
    }

    /// <summary>Takes away what was not completed, and lets others have their turn.</summary>
    public void Dispose()
    {
        Clear();
        _turn.Dispose();
    }

    private static void RequireFree(string folder)
    {
        if (File.Exists(folder) || (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any()))
            throw new JobException(JobErrorKind.Refused, $"'{folder}' is not empty.", "Name a new folder; a delivery never writes over another.");
    }

    private static FileStream Lock(string folder)
    {
        try
        {
            return new FileStream(Beside(folder, ".lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        }
        catch (IOException error) when (File.Exists(Beside(folder, ".lock")))
        {
            throw new JobException(JobErrorKind.Refused, $"Another process is delivering into '{folder}'.", "Wait for it to end, or name another folder.", error);
        }
    }

    private static string Beside(string folder, string ending) =>
        System.IO.Path.Combine(System.IO.Path.GetDirectoryName(folder)!, "." + System.IO.Path.GetFileName(folder) + ending);

    private void Clear()
    {
        if (Directory.Exists(Path))
            Directory.Delete(Path, recursive: true);
    }
}
