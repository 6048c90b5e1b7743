using Athwart.Jobs.LineUp;
using Athwart.Jobs.Render;
using Athwart.Jobs.Shape;
using Athwart.Quantities;

namespace Athwart.Jobs.Decode;

/// <summary>What `decode` is asked: raw mid-side recordings in, stereo out, without a library.</summary>
public sealed record DecodeRequest
{
    /// <summary>The files; those that belong together become one take.</summary>
    public required IReadOnlyList<string> Inputs { get; init; }

    /// <summary>The file to write for one take, or an existing folder for any number of them.</summary>
    public required string Output { get; init; }

    /// <summary>Gain of side against mid; −∞ gives the mid twice. Null for the treatment's, else 0 dB.</summary>
    public Decibels? SideLevel { get; init; }

    /// <summary>What is done to mid and side before; null for nothing.</summary>
    public Treatment? Treatment { get; init; }

    /// <summary>The rig as a line-up measured it, for treatments that need it; null for none.</summary>
    public RigProfileDocument? Rig { get; init; }

    /// <summary>The word of the output; null for the recording's own.</summary>
    public OutputWord? Word { get; init; }

    /// <summary>The rate of the output in hertz; null for the recording's own.</summary>
    public int? SampleRateHertz { get; init; }

    /// <summary>The trim.</summary>
    public TrimRequest Trim { get; init; } = TrimRequest.None;

    /// <summary>The channel with the mid, from 1; null to find it by track names, else 1.</summary>
    public int? MidChannel { get; init; }

    /// <summary>The channel with the side, from 1; null to find it by track names, else 2.</summary>
    public int? SideChannel { get; init; }

    /// <summary>Whether the side was recorded with its positive lobe to the right.</summary>
    public bool InvertSide { get; init; }

    /// <summary>The first frame; 0 for the start.</summary>
    public long FromFrame { get; init; }

    /// <summary>The frame after the last; null for the end.</summary>
    public long? ToFrame { get; init; }

    /// <summary>Frames, at the take's rate, over which the cut rises from silence.</summary>
    public long FadeInFrames { get; init; }

    /// <summary>Frames over which it falls to silence.</summary>
    public long FadeOutFrames { get; init; }

    /// <summary>Stereo, or the mid alone.</summary>
    public RenderKind Kind { get; init; }

    /// <summary>The seed of the dither.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Whether to write a recipe beside each file; costs reading source and result once more for their hashes.</summary>
    public bool WriteRecipe { get; init; }

    /// <summary>Threads: several takes at once, or several threads for one.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;

    /// <summary>Whether files of the same names may be replaced.</summary>
    public bool Overwrite { get; init; }

    /// <summary>Whether to wait until the disk has each file before it gets its name.</summary>
    public bool Durable { get; init; }

    /// <summary>Told now and then how far it is, over all takes.</summary>
    public IProgress<RenderProgress>? Progress { get; init; }
}

/// <summary>What `decode` did.</summary>
/// <param name="Takes">One entry for each take and each refused file, in the order of the inputs.</param>
public sealed record DecodeReport(IReadOnlyList<DecodedTake> Takes)
{
    /// <summary>Whether every take was decoded.</summary>
    public bool Succeeded => Takes.All(t => t.Error is null);
}

/// <summary>One decoded take.</summary>
public sealed record DecodedTake
{
    /// <summary>The take's name, or the refused file.</summary>
    public required string Name { get; init; }

    /// <summary>Its files.</summary>
    public required IReadOnlyList<string> Inputs { get; init; }

    /// <summary>The file made; null when it was refused.</summary>
    public RenderResult? Result { get; init; }

    /// <summary>The recipe it was made by; null when it was refused before there was one.</summary>
    public Recipe? Recipe { get; init; }

    /// <summary>The recipe file; null when none was asked for.</summary>
    public string? RecipePath { get; init; }

    /// <summary>How mid and side were found, in one sentence.</summary>
    public string RolesFrom { get; init; } = "";

    /// <summary>What the treatment came to for this take; null without one.</summary>
    public SettledTreatment? Treated { get; init; }

    /// <summary>What was found in its files while they were read, such as a header that was never finished, and while they were treated.</summary>
    public IReadOnlyList<Finding> Findings { get; init; } = [];

    /// <summary>Why it was refused: a <see cref="RenderException"/>, a recording's or the disk's; null when it was decoded.</summary>
    public Exception? Error { get; init; }
}
