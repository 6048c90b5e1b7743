namespace Athwart.Recordings;

/// <summary>What a new WAVE file holds besides its samples.</summary>
public sealed record WaveWriterOptions
{
    /// <summary>Channels, 1 to 64.</summary>
    public required int ChannelCount { get; init; }

    /// <summary>Frames a second, 8000 to 768000.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>How samples are stored.</summary>
    public required SampleFormat Format { get; init; }

    /// <summary>The `bext` chunk; null for none. Its loudness fields may be replaced until the file is complete.</summary>
    public BroadcastExtension? Broadcast { get; init; }

    /// <summary>The `iXML` chunk; null for none.</summary>
    public ProductionNotes? Production { get; init; }

    /// <summary>The texts of LIST INFO.</summary>
    public IReadOnlyList<InfoTag> Info { get; init; } = [];

    /// <summary>Cue points; frames and lengths up to 2^32 − 1.</summary>
    public IReadOnlyList<Marker> Markers { get; init; } = [];

    /// <summary>The `smpl` chunk, after the samples; null for none.</summary>
    public SamplerNotes? Sampler { get; init; }

    /// <summary>Chunks carried as bytes.</summary>
    public IReadOnlyList<RawChunk> Extra { get; init; } = [];

    /// <summary>The largest RIFF size, in bytes after the first eight, that is written as RIFF; a larger file becomes RF64. 2^32 − 2 unless a test lowers it.</summary>
    public long Rf64Threshold { get; init; } = uint.MaxValue - 1;

    /// <summary>Speaker positions; null leaves them to the number of channels (plain header up to two channels, unassigned above).</summary>
    public uint? ChannelMask { get; init; }

    /// <summary>Whether a file of that name may be replaced, at the moment the new one is complete.</summary>
    public bool Overwrite { get; init; }

    /// <summary>Whether completing waits until the disk has the bytes, so that no power failure can leave a half-written file under the final name. True unless speed matters more.</summary>
    public bool Durable { get; init; } = true;
}
