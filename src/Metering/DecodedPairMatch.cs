using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>What a left/right pair turned out to be beside a mid/side pair.</summary>
public enum DecodedPairVerdict
{
    /// <summary>No verdict: too short, silent, or mid and side too alike to tell their shares apart.</summary>
    Undecided = 0,

    /// <summary>Left and right are the decode of mid and side.</summary>
    Decode,

    /// <summary>Left and right are made of mid and side by a fixed matrix, but not as a decode (for instance plain copies).</summary>
    OtherMatrix,

    /// <summary>Left and right are something else: the fixed matrix leaves too much over.</summary>
    Unrelated,
}

/// <summary>The least-squares fit left = a·mid + b·side, right = c·mid + d·side and what it says.</summary>
public sealed record DecodedPairMatch
{
    /// <summary>What the pair is; figures below mean something only where their summaries say so.</summary>
    public required DecodedPairVerdict Verdict { get; init; }

    /// <summary>a, b, c and d; NaN when undecided.</summary>
    public (double LeftMid, double LeftSide, double RightMid, double RightSide) Matrix { get; init; } = (double.NaN, double.NaN, double.NaN, double.NaN);

    /// <summary>Gain of the side against the mid that the recorder used; −∞ for a mono decode; NaN unless <see cref="DecodedPairVerdict.Decode"/>.</summary>
    public Decibels SideLevel { get; init; } = new(double.NaN);

    /// <summary>Gain from the recorded mid to the mid in the decode, (a + c)/2; NaN unless a decode.</summary>
    public Decibels MidGain { get; init; } = new(double.NaN);

    /// <summary>Whether the decode has the side the other way round: its polarity was inverted, or left and right are swapped.</summary>
    public bool SideInverted { get; init; }

    /// <summary>Whether the decode treats what was given as the side as its mid: the roles of the two channels are swapped.</summary>
    public bool RolesSwapped { get; init; }

    /// <summary>Whether both left and right have the mid inverted.</summary>
    public bool MidInverted { get; init; }

    /// <summary>Power left over by the fit, relative to left and right together; NaN when undecided. Good to about −150 dB.</summary>
    public Decibels Residual { get; init; } = new(double.NaN);

    /// <summary>The largest such residual of any 1 s that is not silent: shows a decode that changed on the way.</summary>
    public Decibels WorstResidual { get; init; } = new(double.NaN);

    /// <summary>Frames compared.</summary>
    public FrameCount FrameCount { get; init; }
}
