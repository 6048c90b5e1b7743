namespace Athwart.Recordings;

/// <summary>What a walk over the chunks of a WAVE file found.</summary>
internal sealed record WaveLayout(ContainerKind Container, WaveFormatChunk Format, long DataOffset, long DataSize, IReadOnlyList<ChunkEntry> Chunks)
{
    public int FrameBytes => Format.ChannelCount * Format.Format.BytesPerSample;

    public long FrameCount => DataSize / FrameBytes;
}
