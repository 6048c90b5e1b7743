namespace Athwart.Scenes.Sources;

/// <summary>One thing that sounds.</summary>
public sealed record SoundSource
{
    /// <summary>A word for the truth.</summary>
    public string Name { get; init; } = "source";

    /// <summary>What it gives off.</summary>
    public required SourceSignal Signal { get; init; }

    /// <summary>Where it is.</summary>
    public required Trajectory Trajectory { get; init; }

    /// <summary>Sound pressure level at 1 m: root mean square of what goes on, peak of what strikes (see the signal).</summary>
    public double LevelDecibels { get; init; } = 74;
}
