namespace Athwart.Microphones.Equipment;

/// <summary>A microphone of the kit, owned or considered. A figure that is null is not known, and whatever needs it says so.</summary>
public sealed record Microphone
{
    /// <summary>Its name in the kit; unique among the microphones, letter case aside.</summary>
    public required string Name { get; init; }

    /// <summary>The patterns it offers, at least one; one body gives one of them at a time.</summary>
    public required IReadOnlyList<MicrophoneSetting> Settings { get; init; }

    /// <summary>Phantom current in mA; 0 when it takes none.</summary>
    public double? PhantomMilliamperes { get; init; }

    /// <summary>Length along the body in millimetres.</summary>
    public double? LengthMillimetres { get; init; }

    /// <summary>Largest diameter in millimetres.</summary>
    public double? DiameterMillimetres { get; init; }

    /// <summary>Weight in grams.</summary>
    public double? WeightGrams { get; init; }

    /// <summary>What one costs.</summary>
    public Price? Price { get; init; }

    /// <summary>Whether it is owned; otherwise it is considered.</summary>
    public bool Owned { get; init; }

    /// <summary>How many there are, 1 or more; two roles of a rig need two.</summary>
    public int Count { get; init; } = 1;

    /// <summary>Anything else worth knowing.</summary>
    public string Notes { get; init; } = "";
}
