using Athwart.Microphones.Equipment;
using Athwart.Quantities;

namespace Athwart.Microphones.Choosing;

/// <summary>A pair with one recorder while it is looked at.</summary>
internal sealed record Candidate
{
    public required int Order { get; init; }

    public required MicrophoneChoice Mid { get; init; }

    public required MicrophoneChoice Side { get; init; }

    public required Recorder? Recorder { get; init; }

    public Decibels SideLevel { get; init; }

    public Degrees? Coverage { get; init; }

    public double? CoverageError { get; init; }

    public double? Noise { get; init; }

    public double? MonoNoise { get; init; }

    public double? MidGain { get; init; }

    public double? SideGain { get; init; }

    public double? Weight { get; init; }

    public IReadOnlyList<Purchase> ToBuy { get; init; } = [];

    public IReadOnlyList<Price> Cost { get; init; } = [];

    /// <summary>The cost in the currency that is compared in; null when it is not known or in another.</summary>
    public decimal? Comparable { get; init; }

    public List<Shortfall> Shortfalls { get; } = [];

    public List<string> NotKnown { get; } = [];

    public IReadOnlyList<ScorePart> Parts { get; set; } = [];

    public double Score => Parts.Sum(p => p.Points);
}
