using Microsoft.Win32.SafeHandles;

namespace Athwart.Jobs.TakeIn;

/// <summary>Every touch of card and library disk that a take-in makes. Tests override single steps to flip a byte, fill the disk, pull the card or die.</summary>
internal class TakeInDisk
{
    private const UnixFileMode ReadOnlyMode = UnixFileMode.UserRead | UnixFileMode.GroupRead | UnixFileMode.OtherRead;

    /// <summary>Whether a read after <see cref="Settle"/> is known to come from the disk.</summary>
    public virtual bool ReadsBackFromDisk => OperatingSystem.IsLinux();

    public virtual SafeFileHandle OpenCard(string path) =>
        File.OpenHandle(path, FileMode.Open, FileAccess.Read, FileShare.Read, FileOptions.SequentialScan);

    public virtual int ReadCard(SafeFileHandle file, Span<byte> buffer, long offset) => RandomAccess.Read(file, buffer, offset);

    public virtual long FreeSpace(string folder) => new DriveInfo(folder).AvailableFreeSpace;

    public virtual SafeFileHandle CreatePart(string path) => File.OpenHandle(path, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.Read);

    public virtual void WritePart(SafeFileHandle file, ReadOnlySpan<byte> bytes, long offset) => RandomAccess.Write(file, bytes, offset);

    /// <summary>Gives the space of a part that failed back at once, not only when it is its turn to be removed.</summary>
    public virtual void Empty(SafeFileHandle file) => RandomAccess.SetLength(file, 0);

    /// <summary>Begins to write a stretch to the disk, where that can be asked for.</summary>
    public virtual void StartWriting(SafeFileHandle file, long offset, long length)
    {
        if (OperatingSystem.IsLinux())
            LinuxCalls.StartWriting(file, offset, length);
    }

    /// <summary>Returns when a stretch is on the disk and, on Linux, no longer in memory.</summary>
    public virtual void Settle(SafeFileHandle file, long offset, long length)
    {
        if (!OperatingSystem.IsLinux() || !LinuxCalls.WaitUntilWritten(file, offset, length))
            RandomAccess.FlushToDisk(file);
        if (OperatingSystem.IsLinux())
            LinuxCalls.DropPages(file, offset, length);
    }

    public virtual int ReadBack(SafeFileHandle file, Span<byte> buffer, long offset) => RandomAccess.Read(file, buffer, offset);

    /// <summary>Gives the copy the card's time, takes the right to write away, and flushes it with its size and rights.</summary>
    public virtual void Seal(SafeFileHandle file, DateTimeOffset modified)
    {
        File.SetLastWriteTimeUtc(file, modified.UtcDateTime);
        if (!OperatingSystem.IsWindows())
            File.SetUnixFileMode(file, ReadOnlyMode);
        else
            File.SetAttributes(file, FileAttributes.ReadOnly);
        RandomAccess.FlushToDisk(file);
    }

    public virtual void Rename(string part, string target) => File.Move(part, target, overwrite: false);

    /// <summary>Makes the names in a folder durable, where the system has such a thing.</summary>
    public virtual void SyncFolder(string folder)
    {
        if (!OperatingSystem.IsWindows())
            LinuxCalls.SyncFolder(folder);
    }

    public virtual void CreateFolder(string folder) => Directory.CreateDirectory(folder);

    public virtual void Delete(string path)
    {
        // Windows refuses to delete what is read-only, and a sealed part may be.
        if (OperatingSystem.IsWindows() && File.Exists(path))
            File.SetAttributes(path, FileAttributes.Normal);
        File.Delete(path);
    }
}
