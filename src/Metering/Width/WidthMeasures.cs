using Athwart.Quantities;

namespace Athwart.Metering.Width;

/// <summary>How wide the decode is, how it leans, and what becomes of it in mono.</summary>
public sealed record WidthMeasures
{
    /// <summary>The moments in which left and right are most opposed, worst first; none overlaps another; at most five.</summary>
    public required IReadOnlyList<WidthMoment> WorstMoments { get; init; }

    /// <summary>Left above right over the whole take in dB; NaN when one is silent.</summary>
    public required Decibels LeftMinusRight { get; init; }

    /// <summary>The three seconds in which it leans furthest; null where the take is shorter or never loud enough.</summary>
    public required WidthMoment? FurthestLean { get; init; }

    /// <summary>What mono has less than left and right together, for each third octave that holds a hundredth of the sound or more; empty when spectra were not asked for.</summary>
    public required IReadOnlyList<MonoLossBand> MonoLoss { get; init; }

    /// <summary>The side level up to which no such third octave loses more than 3 dB in mono; null when not known, +∞ for a silent side.</summary>
    public required Decibels? SafeForMono { get; init; }

    /// <summary>The side level up to which no audible 400 ms have opposed left and right (a correlation below 0); null when not known, +∞ for a silent side.</summary>
    public required Decibels? SafeForCorrelation { get; init; }

    /// <summary>The side level from which the decode is more than nearly mono: left and right correlate less than 0.95 over the whole; null when not known.</summary>
    public required Decibels? WideFrom { get; init; }

    /// <summary>The lower of the two safe levels.</summary>
    public Decibels? SafeUpTo => (SafeForMono, SafeForCorrelation) is ({ } a, { } b) ? (a.Value < b.Value ? a : b) : SafeForMono ?? SafeForCorrelation;
}

/// <summary>A moment and what was measured in it.</summary>
/// <param name="Range">Where.</param>
/// <param name="Value">How much: a correlation, or left above right in dB.</param>
public readonly record struct WidthMoment(FrameRange Range, double Value);

/// <summary>One third octave in mono.</summary>
/// <param name="Hertz">Its middle.</param>
/// <param name="LossDecibels">What mono has less than left and right together: 10·lg(1 + g²·side²/mid²).</param>
public readonly record struct MonoLossBand(double Hertz, double LossDecibels);
