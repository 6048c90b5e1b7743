namespace Athwart.Jobs.TakeIn;

/// <summary>Entries that recorders and computers leave on a card for themselves.</summary>
internal static class SystemNames
{
    // Common practice of desktop systems and FAT checkers, no source. Names only, so nothing a recordist made is lost by its kind.
    private static readonly HashSet<string> Known = new(StringComparer.OrdinalIgnoreCase)
    {
        "System Volume Information", "$RECYCLE.BIN", "RECYCLER", "LOST.DIR", "lost+found", "Thumbs.db", "desktop.ini",
    };

    public static bool Contains(FileSystemInfo entry) =>
        entry.Name.StartsWith('.') || Known.Contains(entry.Name) || (OperatingSystem.IsWindows() && (entry.Attributes & (FileAttributes.Hidden | FileAttributes.System)) != FileAttributes.None);
}
