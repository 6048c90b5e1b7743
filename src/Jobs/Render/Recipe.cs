using System.Text.Json.Serialization;
using Athwart.Jobs.LineUp;
using Athwart.Jobs.Shape;

namespace Athwart.Jobs.Render;

/// <summary>How a delivered file was made, as data: `render` on it gives the same bytes on any machine. Kept as JSON beside the file.</summary>
/// <remarks>docs and schema: src/Jobs/Render/README.md. Fields may be added within a version; a higher version is refused by older programs.</remarks>
public sealed record Recipe
{
    /// <summary>The highest version this program reads. Version 2 has steps; a recipe without any is still written as version 1, which older programs render too.</summary>
    public const int CurrentVersion = 2;

    /// <summary>Always 'athwart-recipe'.</summary>
    public string Kind { get; init; } = "athwart-recipe";

    /// <summary>The version of the format, set when it is written: the lowest that renders it right.</summary>
    public int Version { get; init; } = 1;

    /// <summary>The program that wrote it, such as 'Athwart 0.1.0'; for people, it changes nothing.</summary>
    public string Program { get; init; } = "";

    /// <summary>Where the raw pair comes from.</summary>
    public required RecipeSource Source { get; init; }

    /// <summary>What is done to it.</summary>
    public required RecipeTreatment Treatment { get; init; }

    /// <summary>What is written.</summary>
    public required RecipeOutput Output { get; init; }

    /// <summary>The effect it makes; for people and for finding it again. Null when it makes none that has a name.</summary>
    public RecipeEffect? Effect { get; init; }
}

/// <summary>What an effect is called.</summary>
public sealed record RecipeEffect
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Words to find it by.</summary>
    public IReadOnlyList<string> Tags { get; init; } = [];

    /// <summary>A sentence about it; null for none.</summary>
    public string? Notes { get; init; }
}

/// <summary>The raw pair: files, channels and the cut.</summary>
public sealed record RecipeSource
{
    /// <summary>The files, in the order of the take.</summary>
    public IReadOnlyList<RecipeFile> Files { get; init; } = [];

    /// <summary>The take's name; for people.</summary>
    public string Take { get; init; } = "";

    /// <summary>The take's channel that holds the mid, from 1.</summary>
    public int MidChannel { get; init; } = 1;

    /// <summary>The take's channel that holds the side, from 1; not used for mono.</summary>
    public int SideChannel { get; init; } = 2;

    /// <summary>Whether the side was recorded with its positive lobe to the right, so that its sign is turned.</summary>
    public bool InvertSide { get; init; }

    /// <summary>The first frame of the cut, counted in the take.</summary>
    public long FromFrame { get; init; }

    /// <summary>The frame after the last of the cut.</summary>
    public required long ToFrame { get; init; }

    /// <summary>How the end of the cut is led over into its start; null when it is no loop. Only version 2 has it.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public RecipeLoop? Loop { get; init; }

    /// <summary>The take's sample rate in hertz.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>The take's word, such as 's24'; 8-bit recordings count as 's16', 64-bit float as 'f32'.</summary>
    public OutputWord Word { get; init; } = OutputWord.Signed24;

    /// <summary>The rig as a line-up measured it; null when there was none. What a step needs of it stands in the step.</summary>
    public RigProfileDocument? Rig { get; init; }
}

/// <summary>One file of a take, and where its frames and channels lie in it.</summary>
public sealed record RecipeFile
{
    /// <summary>Path, relative to the recipe's folder where possible, with '/' between folders.</summary>
    public required string Path { get; init; }

    /// <summary>SHA-256 of the whole file, lower-case hexadecimal; empty when not known.</summary>
    [JsonPropertyName("sha256")]
    public string Sha256 { get; init; } = "";

    /// <summary>Its length in bytes.</summary>
    public long Bytes { get; init; }

    /// <summary>The take frame of its first frame.</summary>
    public long FirstFrame { get; init; }

    /// <summary>Its frames in the take.</summary>
    public long FrameCount { get; init; }

    /// <summary>The take channel of its first channel, from 1.</summary>
    public int FirstChannel { get; init; } = 1;

    /// <summary>Its channels.</summary>
    public int ChannelCount { get; init; } = 1;
}

/// <summary>The steps from the raw pair to the output, in the order they are applied.</summary>
public sealed record RecipeTreatment
{
    /// <summary>The name of the treatment the steps come from; for people. Null for none.</summary>
    public string? Name { get; init; }

    /// <summary>What is done to mid and side before they are decoded, in order; null for nothing. Only version 2 has it.</summary>
    public IReadOnlyList<TreatmentStep>? Steps { get; init; }

    /// <summary>Gain of side against mid in decibels; null is −∞, mono.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.Never)]
    public double? SideLevelDecibels { get; init; }

    /// <summary>The amplitude ratio g that is used, to the last bit; 0 for mono.</summary>
    public required double SideGain { get; init; }

    /// <summary>What the trim was made for.</summary>
    public TrimRequest Trim { get; init; } = TrimRequest.None;

    /// <summary>The gain of the whole in decibels; 0 for none.</summary>
    public double TrimDecibels { get; init; }

    /// <summary>The amplitude ratio of the trim that is used, to the last bit; 1 for none.</summary>
    public double TrimGain { get; init; } = 1;

    /// <summary>Frames of the cut, at the take's rate, over which it rises from silence: sin²(π/2·(n + ½)/N).</summary>
    public long FadeInFrames { get; init; }

    /// <summary>Frames of the cut, at the take's rate, over which it falls to silence, the same shape backwards.</summary>
    public long FadeOutFrames { get; init; }

    /// <summary>The shape of the fade at the start: 'linear', 'constant-power' or 'exponential'; null is sin². Only version 2 has it.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? FadeInCurve { get; init; }

    /// <summary>The shape of the fade at the end, backwards.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? FadeOutCurve { get; init; }
}

/// <summary>The seam of a loop: over its last frames the sound that stands as long before the cut comes in.</summary>
/// <param name="CrossfadeFrames">Frames of the cross-fade.</param>
/// <param name="Correlation">How alike the two are, 0 to 1: 0 fades at constant power, 1 at constant gain.</param>
public sealed record RecipeLoop(long CrossfadeFrames, double Correlation);

/// <summary>What is written.</summary>
public sealed record RecipeOutput
{
    /// <summary>Stereo, or the mid alone.</summary>
    public RenderKind Kind { get; init; }

    /// <summary>The sample rate in hertz.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>The sample word.</summary>
    public required OutputWord Word { get; init; }

    /// <summary>The seed of the dither.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>What travels in the file besides the samples.</summary>
    public RecipeMetadata Metadata { get; init; } = new();

    /// <summary>The delivered file, relative to the recipe's folder; empty when not known.</summary>
    public string File { get; init; } = "";

    /// <summary>SHA-256 of the delivered file, lower-case hexadecimal; empty when not known.</summary>
    [JsonPropertyName("sha256")]
    public string Sha256 { get; init; } = "";

    /// <summary>Its length in bytes; 0 when not known.</summary>
    public long Bytes { get; init; }
}

/// <summary>What is rendered.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<RenderKind>))]
public enum RenderKind
{
    /// <summary>Left and right.</summary>
    [JsonStringEnumMemberName("stereo")]
    Stereo = 0,

    /// <summary>The mid alone, one channel.</summary>
    [JsonStringEnumMemberName("mono")]
    Mono,
}
