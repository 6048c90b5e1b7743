namespace Athwart.Desk.Sound;

/// <summary>A stretch of a take chosen on its time line.</summary>
/// <param name="FromFrame">The first frame.</param>
/// <param name="ToFrame">The frame after the last.</param>
public sealed record FrameSelection(long FromFrame, long ToFrame);
