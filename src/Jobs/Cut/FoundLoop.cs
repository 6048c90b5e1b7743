using System.Globalization;
using Athwart.Signals.Loops;

namespace Athwart.Jobs.Cut;

/// <summary>A loop that was found, and how its seam compares with the rest of it.</summary>
/// <param name="FromFrame">The first frame.</param>
/// <param name="ToFrame">The frame after the last.</param>
/// <param name="Seam">How the end is led over into the start.</param>
/// <param name="Proof">What was measured.</param>
internal sealed record FoundLoop(long FromFrame, long ToFrame, LoopSeam Seam, SeamProof Proof)
{
    /// <summary>As a proposal without a name.</summary>
    public CutProposal Proposal(string take, int rate) => new()
    {
        Take = take,
        Name = "",
        What = "loop",
        FromFrame = FromFrame,
        ToFrame = ToFrame,
        SampleRateHertz = rate,
        CrossfadeFrames = Seam.CrossfadeFrames,
        Correlation = Seam.Correlation,
        Remarks = [Proof.ToString()],
    };
}

/// <summary>What happens at the seam of a loop against what happens elsewhere in it, from one 100 ms to the next.</summary>
public sealed record SeamProof
{
    /// <summary>Largest change of the spectrum (bands of mid and side, root mean square) over the seam, decibels.</summary>
    public required double SpectralJumpDecibels { get; init; }

    /// <summary>Its middle value over the seam.</summary>
    public required double SpectralUsualDecibels { get; init; }

    /// <summary>The change that 95 % of the places elsewhere stay under.</summary>
    public required double ElsewhereMostDecibels { get; init; }

    /// <summary>The largest change elsewhere.</summary>
    public required double ElsewhereLargestDecibels { get; init; }

    /// <summary>Largest change of level over the seam, decibels.</summary>
    public required double LevelJumpDecibels { get; init; }

    /// <summary>The largest change of level elsewhere.</summary>
    public required double LevelElsewhereDecibels { get; init; }

    /// <summary>The step from the last frame to the first against the usual step from frame to frame, decibels.</summary>
    public required double WrapDecibels { get; init; }

    /// <summary>Whether the seam is not told from the rest: no change over it is larger than the largest elsewhere, its middle one is within what is usual, and its ends meet.</summary>
    public bool Holds => SpectralJumpDecibels <= ElsewhereLargestDecibels && SpectralUsualDecibels <= ElsewhereMostDecibels
        && LevelJumpDecibels <= LevelElsewhereDecibels && WrapDecibels <= ClickCheck.HeardDecibels;

    /// <inheritdoc/>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"Seam {(Holds ? "like the rest" : "stands out")}: spectrum changes by up to {SpectralJumpDecibels:0.0} dB in 100 ms ({ElsewhereLargestDecibels:0.0} elsewhere), level by {LevelJumpDecibels:0.0} dB ({LevelElsewhereDecibels:0.0} elsewhere).");
}
