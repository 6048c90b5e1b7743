using Athwart.Microphones.Equipment;
using Athwart.Quantities;

namespace Athwart.Microphones.Choosing;

/// <summary>A pair that does what is asked, with its place.</summary>
public sealed record PairChoice
{
    /// <summary>Its place, from 1.</summary>
    public int Place { get; init; }

    /// <summary>The mid.</summary>
    public required MicrophoneChoice Mid { get; init; }

    /// <summary>The side.</summary>
    public required MicrophoneChoice Side { get; init; }

    /// <summary>The recorder it does best with; null when the kit has none.</summary>
    public Recorder? Recorder { get; init; }

    /// <summary>The side level to decode at.</summary>
    public required Decibels SideLevel { get; init; }

    /// <summary>The coverage at that level; null when it is never reached.</summary>
    public Degrees? Coverage { get; init; }

    /// <summary>How far the coverage is from the wanted one, 0 or more; null when none was asked.</summary>
    public double? CoverageErrorDegrees { get; init; }

    /// <summary>Noise of the decoded left and right in dBA; null when not known.</summary>
    public double? NoiseDecibelsA { get; init; }

    /// <summary>Noise of the mono fold in dBA; null when not known.</summary>
    public double? MonoNoiseDecibelsA { get; init; }

    /// <summary>The gain of the mid's input in dB; null when not asked or not known.</summary>
    public double? MidGainDecibels { get; init; }

    /// <summary>The gain of the side's input in dB; null when not asked or not known.</summary>
    public double? SideGainDecibels { get; init; }

    /// <summary>What has to be bought, by name and price.</summary>
    public required IReadOnlyList<Purchase> ToBuy { get; init; }

    /// <summary>What that costs, in each currency; empty when nothing has to be bought.</summary>
    public required IReadOnlyList<Price> Cost { get; init; }

    /// <summary>What hangs on the boom in grams; null when not known.</summary>
    public double? WeightGrams { get; init; }

    /// <summary>What was asked and cannot be answered, because a figure is not known; such a pair comes after all that are known.</summary>
    public required IReadOnlyList<string> NotKnown { get; init; }

    /// <summary>What decides the place: the parts by matter, lower is better; what is not known counts as nothing here.</summary>
    public required IReadOnlyList<ScorePart> Parts { get; init; }

    /// <summary>The sum of the parts.</summary>
    public double Score => Parts.Sum(p => p.Points);

    /// <summary>Whether no other pair is at least as good in cost, noise and coverage and better in one.</summary>
    public bool IsTradeOff { get; init; }

    /// <summary>Why it is where it is, one sentence.</summary>
    public string Reason { get; init; } = "";
}

/// <summary>Something that has to be bought.</summary>
/// <param name="Name">What.</param>
/// <param name="Price">For how much; null when not known.</param>
public sealed record Purchase(string Name, Price? Price);

/// <summary>What one matter adds to a score.</summary>
/// <param name="Matter">Which.</param>
/// <param name="Weight">How much it counts: 1, ½, ¼…</param>
/// <param name="Points">What it adds: the weight times the distance from the best, in steps of 10°, 3 dB, a tenth of the dearest or 100 g.</param>
public sealed record ScorePart(Matter Matter, double Weight, double Points);

/// <summary>A pair that fails.</summary>
/// <param name="Mid">The mid.</param>
/// <param name="Side">The side.</param>
/// <param name="Recorder">The recorder it fails least with; null when the kit has none or the pair fails without one.</param>
/// <param name="Shortfalls">What it fails at, never empty.</param>
public sealed record RejectedPair(MicrophoneChoice Mid, MicrophoneChoice Side, Recorder? Recorder, IReadOnlyList<Shortfall> Shortfalls);

/// <summary>The outcome of a search.</summary>
/// <param name="Ranked">The pairs that do, the best first.</param>
/// <param name="Rejected">The pairs that do not, in the kit's order.</param>
/// <param name="Remarks">What is to be known about the whole, such as that the kit has no side.</param>
public sealed record Choice(IReadOnlyList<PairChoice> Ranked, IReadOnlyList<RejectedPair> Rejected, IReadOnlyList<string> Remarks);
