namespace Athwart.Jobs.Shape;

/// <summary>The ordered steps from raw mid and side to stereo, as data: kept under a name, applied to any number of takes.</summary>
/// <remarks>docs/shape.md documents every field of every step. A higher version is refused by older programs; a lower one is brought up to date while it is read.</remarks>
public sealed record Treatment
{
    /// <summary>The version this program writes and the highest it reads.</summary>
    public const int CurrentVersion = 1;

    /// <summary>What <see cref="Kind"/> says.</summary>
    public const string KindName = "athwart-treatment";

    /// <summary>Always 'athwart-treatment'.</summary>
    public string Kind { get; init; } = KindName;

    /// <summary>The version of the format, <see cref="CurrentVersion"/>.</summary>
    public int Version { get; init; } = CurrentVersion;

    /// <summary>What the recordist calls it.</summary>
    public required string Name { get; init; }

    /// <summary>What it is for and why it is so; null for nothing said.</summary>
    public string? Note { get; init; }

    /// <summary>The only rig it is made for, by the name of its profile; null for any.</summary>
    public string? Rig { get; init; }

    /// <summary>The steps, in the order they are done.</summary>
    public IReadOnlyList<TreatmentStep> Steps { get; init; } = [];

    /// <summary>How the treated pair becomes left and right; null leaves it to the cut, the session or the command.</summary>
    public TreatmentDecode? Decode { get; init; }
}
