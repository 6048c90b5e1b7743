using System.Text.Json.Serialization;

namespace Athwart.Jobs.Cut;

/// <summary>A cut that was found and waits to be approved.</summary>
public sealed record CutProposal
{
    /// <summary>Its number in the session's table, from 1; given anew each time the table is shown.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)]
    public int Number { get; set; }

    /// <summary>The take.</summary>
    public required string Take { get; init; }

    /// <summary>The name it would get.</summary>
    public required string Name { get; init; }

    /// <summary>What it is: 'event', 'bed' (a take that is all background), 'whole', 'marker' or 'loop'.</summary>
    public required string What { get; init; }

    /// <summary>The first frame.</summary>
    public required long FromFrame { get; init; }

    /// <summary>The frame after the last.</summary>
    public required long ToFrame { get; init; }

    /// <summary>The take's rate.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>Frames of fade at the start.</summary>
    public long FadeInFrames { get; set; }

    /// <summary>Frames of fade at the end.</summary>
    public long FadeOutFrames { get; set; }

    /// <summary>The shape of both.</summary>
    public string FadeCurve { get; set; } = FadeWords.Default;

    /// <summary>How far the sound stands out, decibels; null for what was not found by its level.</summary>
    public double? HeightDecibels { get; set; }

    /// <summary>Where it stands out most: 'mid', 'side', 'left' or 'right'; empty when not known.</summary>
    public string LoudestIn { get; set; } = "";

    /// <summary>The jump at its start and end, with the fades, against what is near: decibels; above 12 it may be heard as a click. Null when there is none.</summary>
    public double? StartJumpDecibels { get; set; }

    /// <summary>The same at its end.</summary>
    public double? EndJumpDecibels { get; set; }

    /// <summary>Frames over which a loop's end is led over into its start; 0 for no loop.</summary>
    public long CrossfadeFrames { get; set; }

    /// <summary>How alike the sounds of a loop's cross-fade are, 0 to 1.</summary>
    public double Correlation { get; set; }

    /// <summary>Side level in decibels; null leaves it open.</summary>
    public double? SideLevelDecibels { get; set; }

    /// <summary>The name of a treatment; empty for none.</summary>
    public string Treatment { get; set; } = "";

    /// <summary>Words to find it by.</summary>
    public IReadOnlyList<string> Tags { get; set; } = [];

    /// <summary>Remarks for who approves it.</summary>
    public IReadOnlyList<string> Remarks { get; set; } = [];

    /// <summary>How long it is, seconds.</summary>
    [JsonIgnore]
    public double Seconds => (double)(ToFrame - FromFrame) / SampleRateHertz;
}
