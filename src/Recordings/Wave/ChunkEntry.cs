namespace Athwart.Recordings;

/// <summary>Where a chunk lies in its file.</summary>
/// <param name="Id">Four characters.</param>
/// <param name="DataOffset">The first byte of its data, from the start of the file.</param>
/// <param name="Size">The bytes of its data that are in the file.</param>
/// <param name="IsWhole">False when the chunk says it is longer than what the file holds.</param>
public sealed record ChunkEntry(string Id, long DataOffset, long Size, bool IsWhole = true);

/// <summary>A chunk as bare bytes.</summary>
/// <param name="Id">Four printable ASCII characters.</param>
/// <param name="Bytes">Its data, without header and pad byte.</param>
public sealed record RawChunk(string Id, ReadOnlyMemory<byte> Bytes)
{
    /// <summary>Whether a writer puts it before the samples, where readers that stop early find it; after them by default.</summary>
    public bool BeforeSamples { get; init; }
}
