namespace Athwart.Catalogue;

/// <summary>How far the copy of a file has come.</summary>
public enum FileState
{
    /// <summary>A copy was begun and is not known to be whole.</summary>
    Copying = 0,

    /// <summary>The copy was read back from the disk and has the hash of the file on the card.</summary>
    Verified,

    /// <summary>The copy could not be proved equal to the file on the card.</summary>
    Refused,
}

/// <summary>One file of a card, as it lies in the originals folder.</summary>
public sealed record OriginalFile
{
    /// <summary>The id; a new one unless it came from the library.</summary>
    public FileId Id { get; init; } = FileId.New();

    /// <summary>The session it was taken in with.</summary>
    public required SessionId Session { get; init; }

    /// <summary>Where the copy lies, relative to the library, with '/' between.</summary>
    public required string LibraryPath { get; init; }

    /// <summary>Where it lay on the card, relative to the card, with '/' between.</summary>
    public required string CardPath { get; init; }

    /// <summary>The name on the card, without folders.</summary>
    public string OriginalName => CardPath[(CardPath.LastIndexOf('/') + 1)..];

    /// <summary>Length in bytes.</summary>
    public required long Length { get; init; }

    /// <summary>SHA-256 of the content, 64 lower-case hexadecimal digits; empty while it is not known.</summary>
    public string Sha256 { get; init; } = "";

    /// <summary>When it was last changed on the card.</summary>
    public required DateTimeOffset Modified { get; init; }

    /// <summary>How far the copy has come.</summary>
    public required FileState State { get; init; }
}
