namespace Athwart.Metering.LineUp;

/// <summary>What is known of a line-up before it is measured.</summary>
public sealed record LineUpSettings
{
    /// <summary>The order of the directions; null for the usual one, of which the last may be missing.</summary>
    public IReadOnlyList<LineUpDirection>? Order { get; init; }

    /// <summary>A of the mid's pattern A + (1 − A)·cos a, 0 to 1: 1 omnidirectional, 0.5 cardioid, 0.25 hypercardioid; null when not known.</summary>
    public double? MidPattern { get; init; }

    /// <summary>
    /// How long the direct sound of a clap is heard alone, in milliseconds, 0.5 to 20. The default of 2 holds where the detour over
    /// ground or wall is 0.7 m or more; with more room a longer one lets lower frequencies be measured.
    /// </summary>
    public double DirectMilliseconds { get; init; } = 2;

    /// <summary>The greatest delay looked for, in milliseconds, 0.1 to 10.</summary>
    public double MaximumDelayMilliseconds { get; init; } = 1;

    /// <summary>Speed of sound in metres a second; 343.2 at 20 °C.</summary>
    public double SpeedOfSound { get; init; } = 343.2;

    /// <summary>What is out of its range; null when nothing is.</summary>
    internal string? Problem() => this switch
    {
        { MidPattern: < 0 or > 1 or double.NaN } => "The mid's pattern A is a number from 0 to 1.",
        { DirectMilliseconds: not (>= 0.5 and <= 20) } => "The direct sound lasts 0.5 to 20 ms.",
        { MaximumDelayMilliseconds: not (>= 0.1 and <= 10) } => "The greatest delay is 0.1 to 10 ms.",
        { SpeedOfSound: not (> 250 and < 450) } => "The speed of sound in air is 250 to 450 m/s.",
        _ => Order is { } order && order.All(d => d.IsSilence) ? "The order names no direction." : null,
    };
}
