namespace Athwart.Microphones.Equipment;

/// <summary>A cage or cover against wind that holds the whole pair.</summary>
public sealed record WindProtection
{
    /// <summary>Its name in the kit; unique among the protections.</summary>
    public required string Name { get; init; }

    /// <summary>Room inside along the mid's axis in millimetres.</summary>
    public double? InnerLengthMillimetres { get; init; }

    /// <summary>Room inside across in millimetres.</summary>
    public double? InnerDiameterMillimetres { get; init; }

    /// <summary>Weight in grams.</summary>
    public double? WeightGrams { get; init; }

    /// <summary>What it takes from the low end, in dB at 100 Hz, as a loss of 0 or more.</summary>
    public double? LowFrequencyLossDecibels { get; init; }

    /// <summary>What one costs.</summary>
    public Price? Price { get; init; }

    /// <summary>Whether it is owned; otherwise it is considered.</summary>
    public bool Owned { get; init; }

    /// <summary>Anything else worth knowing.</summary>
    public string Notes { get; init; } = "";
}
