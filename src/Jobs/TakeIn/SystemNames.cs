using Athwart.Recordings;

namespace Athwart.Jobs.TakeIn;

/// <summary>Entries that recorders and computers leave on a card for themselves.</summary>
internal static class SystemNames
{
    // Common practice of desktop systems, no source.
    private static readonly string[] Files = ["Thumbs.db", "desktop.ini"];

    public static bool Contains(FileSystemInfo entry) =>
        RecordingNames.IsHidden(entry.Name) || Files.Contains(entry.Name, StringComparer.OrdinalIgnoreCase) || (OperatingSystem.IsWindows() && (entry.Attributes & (FileAttributes.Hidden | FileAttributes.System)) != FileAttributes.None);
}
