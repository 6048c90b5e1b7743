namespace Athwart.Microphones.Equipment;

/// <summary>The microphones, recorders and wind protections that are owned or considered.</summary>
public sealed record Kit
{
    /// <summary>A kit with nothing in it.</summary>
    public static Kit Empty { get; } = new();

    /// <summary>The microphones, in the order of entry.</summary>
    public IReadOnlyList<Microphone> Microphones { get; init; } = [];

    /// <summary>The recorders, in the order of entry.</summary>
    public IReadOnlyList<Recorder> Recorders { get; init; } = [];

    /// <summary>The wind protections, in the order of entry.</summary>
    public IReadOnlyList<WindProtection> Protections { get; init; } = [];
}
