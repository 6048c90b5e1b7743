using System.Runtime.InteropServices;
using System.Runtime.Versioning;
using Microsoft.Win32.SafeHandles;

namespace Athwart.Jobs.TakeIn;

/// <summary>What the C library can do and .NET does not offer.</summary>
internal static partial class LinuxCalls
{
    // Values of the Linux kernel's user interface, the same on every processor .NET runs on.
    private const int DontNeed = 4;
    private const uint WaitBeforeWriteWaitAfter = 1 | 2 | 4;
    private const uint WriteOnly = 2;
    private const int CurrentFolder = -100;
    private const int NoFollow = 0x100;
    private const uint TypeOnly = 1;
    private const int StatxBytes = 256;
    private const int StatxModeOffset = 28;
    private const int TypeMask = 0xF000;
    private const int RegularType = 0x8000;
    private const int CloseOnExec = 0x80000;

    /// <summary>Asks the kernel to begin writing a stretch out; returns at once. A hint: failure does no harm.</summary>
    [SupportedOSPlatform("linux")]
    public static void StartWriting(SafeFileHandle file, long offset, long length) => _ = SyncFileRange(file, offset, length, WriteOnly);

    /// <summary>Waits until a stretch is written out.</summary>
    /// <returns>False where the file system cannot, and the whole file must be flushed instead.</returns>
    [SupportedOSPlatform("linux")]
    public static bool WaitUntilWritten(SafeFileHandle file, long offset, long length) => SyncFileRange(file, offset, length, WaitBeforeWriteWaitAfter) == 0;

    /// <summary>Asks the kernel to forget the clean pages of a stretch, so that the next read comes from the disk.</summary>
    [SupportedOSPlatform("linux")]
    public static bool DropPages(SafeFileHandle file, long offset, long length) => FileAdvise(file, offset, length, DontNeed) == 0;

    /// <summary>Makes the names in a folder durable.</summary>
    /// <exception cref="IOException">The folder could not be opened or flushed.</exception>
    [UnsupportedOSPlatform("windows")]
    public static void SyncFolder(string path)
    {
        // .NET refuses to open a folder as a file, so the descriptor is our own.
        var descriptor = Open(path, OperatingSystem.IsLinux() ? CloseOnExec : 0);
        if (descriptor < 0)
            throw new IOException($"The folder '{path}' could not be opened (error {Marshal.GetLastPInvokeError()}).");
        using var folder = new SafeFileHandle(descriptor, ownsHandle: true);
        if (Sync(folder) != 0)
            throw new IOException($"The folder '{path}' could not be flushed to the disk (error {Marshal.GetLastPInvokeError()}).");
    }

    /// <summary>Whether a path names a regular file itself: no pipe, device, socket or link. True when the kernel does not say.</summary>
    [SupportedOSPlatform("linux")]
    public static bool IsRegularFile(string path)
    {
        Span<byte> answer = stackalloc byte[StatxBytes];
        if (Statx(CurrentFolder, path, NoFollow, TypeOnly, answer) != 0)
            return true;
        return (MemoryMarshal.Read<ushort>(answer[StatxModeOffset..]) & TypeMask) == RegularType;
    }

    [LibraryImport("libc", EntryPoint = "sync_file_range", SetLastError = true)]
    private static partial int SyncFileRange(SafeFileHandle file, long offset, long length, uint flags);

    [LibraryImport("libc", EntryPoint = "posix_fadvise")]
    private static partial int FileAdvise(SafeFileHandle file, long offset, long length, int advice);

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
    private static partial int Sync(SafeFileHandle file);

    [LibraryImport("libc", EntryPoint = "statx", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Statx(int folder, string path, int flags, uint mask, Span<byte> answer);
}
