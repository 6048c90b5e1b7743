namespace Athwart.Jobs.Shape;

/// <summary>Stands in a treatment for the response match of whichever rig a take was recorded with; it becomes that match when the treatment is used.</summary>
public sealed record RigMatch;
