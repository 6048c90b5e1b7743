namespace Athwart.Recordings;

/// <summary>A place or stretch that the recordist marked: a cue point with its label, note and length.</summary>
/// <param name="Frame">The first frame.</param>
/// <param name="Length">Frames it covers; 0 for a point.</param>
/// <param name="Label">Its short name; empty when it has none.</param>
/// <param name="Note">Its remark; empty when it has none.</param>
public sealed record Marker(long Frame, long Length, string Label, string Note);
