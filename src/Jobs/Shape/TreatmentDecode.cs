namespace Athwart.Jobs.Shape;

/// <summary>The width of the decode, said in exactly one way.</summary>
public sealed record TreatmentDecode
{
    /// <summary>Gain of the side against the mid in decibels, −100 to +60; null where the width is said otherwise.</summary>
    public double? SideLevelDecibels { get; init; }

    /// <summary>Whether there is no side at all: left and right are the mid.</summary>
    public bool? NoSide { get; init; }
}
