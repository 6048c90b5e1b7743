namespace Athwart.Recordings;

/// <summary>What the names of files on a card tell before they are opened.</summary>
public static class RecordingNames
{
    private static readonly string[] Extensions = [".wav", ".wave", ".bwf", ".rf64", ".bw64", ".flac", ".aif", ".aiff", ".aifc"];

    // Common practice of desktop systems and recorders, no source. FOUND.000 is not among them: what a disk check saved may be a lost take.
    private static readonly string[] SystemFolders = ["System Volume Information", "$RECYCLE.BIN", "RECYCLER", "LOST.DIR", "lost+found", "__MACOSX"];

    /// <summary>Whether the extension, in any case, is one of .wav .wave .bwf .rf64 .bw64 .flac .aif .aiff .aifc.</summary>
    public static bool LooksLikeRecording(string path) => Extensions.Contains(Path.GetExtension(path), StringComparer.OrdinalIgnoreCase);

    /// <summary>Whether a file is no business of the recordist's: its name or a folder on its path begins with a dot, or a folder belongs to a system.</summary>
    /// <param name="path">A path relative to the card, so that folders above the card do not count.</param>
    public static bool IsHidden(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        foreach (var part in path.Split('/', '\\'))
        {
            if ((part.StartsWith('.') && part is not ("." or "..")) || SystemFolders.Contains(part, StringComparer.OrdinalIgnoreCase))
                return true;
        }

        return false;
    }
}
