namespace Athwart.Signals.Loops;

/// <summary>How the end of a loop is led over into its start.</summary>
/// <remarks>
/// The loop is the cut. Over its last <see cref="CrossfadeFrames"/> frames the sound that stands as long before the cut's start comes in, so
/// that after the last frame the first one follows as it was recorded.
/// </remarks>
/// <param name="CrossfadeFrames">Frames of the cross-fade, 1 or more; at most the cut's length and its distance from the start of the take.</param>
/// <param name="Correlation">
/// Correlation of the two sounds as measured, 0 to 1; it sets the law: 0 is constant power, 1 constant gain, between them the gains
/// that keep the power of sounds so alike.
/// </param>
public sealed record LoopSeam(long CrossfadeFrames, double Correlation)
{
    /// <summary>Whether both numbers lie in their ranges.</summary>
    public bool IsValid => CrossfadeFrames >= 1 && Correlation is >= 0 and <= 1;
}
