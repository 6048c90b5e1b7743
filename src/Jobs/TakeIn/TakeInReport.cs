using Athwart.Catalogue;

namespace Athwart.Jobs.TakeIn;

/// <summary>What became of every file of a card.</summary>
public sealed record TakeInReport
{
    /// <summary>The folder of the library, a full path.</summary>
    public required string LibraryFolder { get; init; }

    /// <summary>The session the files belong to.</summary>
    public required Session Session { get; init; }

    /// <summary>Every regular file of the card, in the order of the card.</summary>
    public required IReadOnlyList<TakenFile> Files { get; init; }

    /// <summary>What on the card was left alone, and why.</summary>
    public required IReadOnlyList<SkippedEntry> Skipped { get; init; }

    /// <summary>How the copies were read back.</summary>
    public required ReadBackSource ReadBack { get; init; }

    /// <summary>Whether the job was asked to end early.</summary>
    public bool Cancelled { get; init; }

    /// <summary>Whether the library's disk ran full.</summary>
    public bool DiskFull { get; init; }

    /// <summary>How long it took.</summary>
    public required TimeSpan Elapsed { get; init; }

    /// <summary>Bytes copied and read back; files that were here already do not count.</summary>
    public long BytesCopied => Files.Where(f => f.Status == TakenFileStatus.Copied).Sum(f => f.Length);

    /// <summary>Whether every regular file of the card is now in the library.</summary>
    public bool Complete => Files.All(f => f.IsInLibrary);
}

/// <summary>What became of one file of the card.</summary>
public sealed record TakenFile
{
    /// <summary>Where it lies on the card, relative to the card, with '/' between.</summary>
    public required string CardPath { get; init; }

    /// <summary>Where it lies in the library, relative to the library, with '/' between; null when it is not there.</summary>
    public string? LibraryPath { get; init; }

    /// <summary>Its row in the catalogue; null when it is not there.</summary>
    public FileId? File { get; init; }

    /// <summary>Length in bytes.</summary>
    public required long Length { get; init; }

    /// <summary>SHA-256 of the content, 64 lower-case hexadecimal digits; empty when it was not read to its end.</summary>
    public string Sha256 { get; init; } = "";

    /// <summary>What became of it.</summary>
    public required TakenFileStatus Status { get; init; }

    /// <summary>Anything the recordist should know, with what to do; empty when there is nothing.</summary>
    public string Message { get; init; } = "";

    /// <summary>Whether a verified copy is in the library.</summary>
    public bool IsInLibrary => Status is TakenFileStatus.Copied or TakenFileStatus.AlreadyHere or TakenFileStatus.Adopted;
}

/// <summary>What became of a file.</summary>
public enum TakenFileStatus
{
    /// <summary>It could not be taken in; the message says why.</summary>
    Failed = 0,

    /// <summary>Copied, read back, found equal.</summary>
    Copied,

    /// <summary>The library held this content before; nothing was copied.</summary>
    AlreadyHere,

    /// <summary>A finished copy of an interrupted run was found, read back and found equal.</summary>
    Adopted,

    /// <summary>The job ended before its turn.</summary>
    NotReached,
}

/// <summary>Where the bytes came from that were compared with the card.</summary>
public enum ReadBackSource
{
    /// <summary>Nothing was copied.</summary>
    Nothing = 0,

    /// <summary>From the disk: written out, the kernel told to drop its pages, then read.</summary>
    Disk,

    /// <summary>Written out, then read through the system's cache, which may have answered from memory.</summary>
    SystemCache,
}

/// <summary>Something on the card that was left alone.</summary>
/// <param name="CardPath">Where it lies on the card, relative to the card, with '/' between.</param>
/// <param name="Reason">Why.</param>
/// <param name="Message">One sentence for the recordist.</param>
public sealed record SkippedEntry(string CardPath, SkipReason Reason, string Message);

/// <summary>Why something on the card was left alone.</summary>
public enum SkipReason
{
    /// <summary>A hidden or system entry of the recorder or a computer.</summary>
    Hidden = 0,

    /// <summary>A symbolic link that leads out of the card.</summary>
    LinkOutOfCard,

    /// <summary>A symbolic link to something on the card, which is taken in itself.</summary>
    LinkWithinCard,

    /// <summary>Neither a file nor a folder: a pipe, a device.</summary>
    NotAFile,

    /// <summary>A folder that could not be listed; what is in it is not known.</summary>
    UnreadableFolder,

    /// <summary>An unfinished copy of ours.</summary>
    UnfinishedCopy,
}
