using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.Render;

/// <summary>How a render runs; nothing here changes a byte of the result.</summary>
public sealed record RenderOptions
{
    /// <summary>Threads that compute chunks, 1 or more; the processor's by default. With one, everything happens on the caller's.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;

    /// <summary>Told now and then how far it is; null for nobody.</summary>
    public IProgress<RenderProgress>? Progress { get; init; }

    /// <summary>Whether a file of the target's name may be replaced.</summary>
    public bool Overwrite { get; init; }

    /// <summary>Whether to wait until the disk has the bytes before the file gets its name.</summary>
    public bool Durable { get; init; } = true;

    /// <summary>Whether to read the file again for its SHA-256.</summary>
    public bool Hash { get; init; }

    /// <summary>Hears everything that is written, in order; null for nobody.</summary>
    public IRenderTap? Tap { get; init; }

    /// <summary>The largest RIFF size before a file becomes RF64; null for the format's own limit. For tests.</summary>
    public long? Rf64Threshold { get; init; }
}

/// <summary>How far a render is.</summary>
/// <param name="FramesDone">Output frames written.</param>
/// <param name="FramesTotal">Output frames in all.</param>
public readonly record struct RenderProgress(long FramesDone, long FramesTotal);

/// <summary>Hears the output as it is written, for meters and pictures of what is delivered.</summary>
public interface IRenderTap
{
    /// <summary>The next frames as written, full scale ±1; for a mono output both spans are the mid.</summary>
    void Add(ReadOnlySpan<float> left, ReadOnlySpan<float> right);

    /// <summary>Called after the last frame: may put measured loudness into the `bext` chunk, whose length must stay the same.</summary>
    /// <param name="broadcast">The chunk as the recipe has it; null when it has none.</param>
    /// <returns>The chunk to write.</returns>
    BroadcastExtension? Complete(BroadcastExtension? broadcast);
}

/// <summary>What a render made.</summary>
/// <param name="Path">The file.</param>
/// <param name="Frames">Frames written.</param>
/// <param name="ExactFrames">Of these, frames whose mono fold is the mid to the bit.</param>
/// <param name="SamplePeak">The highest magnitude written, full scale 1; 0 for silence. Not measured for a mono copy on the exact path.</param>
/// <param name="Sha256">SHA-256 of the file in lower-case hexadecimal; empty unless asked for.</param>
/// <param name="Bytes">The length of the file.</param>
/// <param name="Broadcast">The `bext` chunk as written; null for none.</param>
public sealed record RenderResult(string Path, long Frames, long ExactFrames, double SamplePeak, string Sha256, long Bytes, BroadcastExtension? Broadcast)
{
    /// <summary>What was found while it was made, such as samples that are no numbers.</summary>
    public IReadOnlyList<Finding> Findings { get; init; } = [];
}
