namespace Athwart.Catalogue;

/// <summary>One measurement of a rig by a line-up.</summary>
public sealed record RigProfile
{
    /// <summary>The id; a new one unless it came from the library.</summary>
    public RigProfileId Id { get; init; } = RigProfileId.New();

    /// <summary>What the recordist calls the rig; profiles of one rig go by the same name, the case of the letters a to z aside.</summary>
    public required string Rig { get; init; }

    /// <summary>The day of the line-up.</summary>
    public required DateOnly Measured { get; init; }

    /// <summary>The version of the JSON's form.</summary>
    public required int Version { get; init; }

    /// <summary>What was measured; the catalogue does not look into it.</summary>
    public required string Json { get; init; }
}
