using System.Runtime.InteropServices;

namespace Athwart.Recordings;

/// <summary>Hands a folder's list of names to the disk, so that a rename survives a power failure. Does nothing where the system cannot.</summary>
internal static partial class FolderFlush
{
    public static void Flush(string folder)
    {
        if (OperatingSystem.IsWindows())
            return;
        var descriptor = Open(folder, 0);
        if (descriptor < 0)
            return;
        _ = Synchronise(descriptor);
        _ = Close(descriptor);
    }

    [LibraryImport("libc", EntryPoint = "open", StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fsync")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Synchronise(int descriptor);

    [LibraryImport("libc", EntryPoint = "close")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Close(int descriptor);
}
