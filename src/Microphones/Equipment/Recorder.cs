namespace Athwart.Microphones.Equipment;

/// <summary>A recorder of the kit and its microphone inputs.</summary>
public sealed record Recorder
{
    /// <summary>Its name in the kit; unique among the recorders.</summary>
    public required string Name { get; init; }

    /// <summary>How many microphone inputs it has.</summary>
    public int? InputCount { get; init; }

    /// <summary>Equivalent input noise in dBu, A-weighted, source of 150 Ω, at high gain.</summary>
    public double? EquivalentInputNoiseDecibelsU { get; init; }

    /// <summary>The level in dBu that reaches full scale at the lowest gain.</summary>
    public double? MaximumInputDecibelsU { get; init; }

    /// <summary>The lowest gain in dB.</summary>
    public double? MinimumGainDecibels { get; init; }

    /// <summary>The highest gain in dB.</summary>
    public double? MaximumGainDecibels { get; init; }

    /// <summary>The step of the gain control in dB; 0 when it turns freely.</summary>
    public double? GainStepDecibels { get; init; }

    /// <summary>Phantom current in mA that all inputs together can give.</summary>
    public double? PhantomMilliamperes { get; init; }

    /// <summary>Hours on one set of batteries, recording two channels without phantom.</summary>
    public double? BatteryHours { get; init; }

    /// <summary>Hours on one set of batteries with the whole phantom current drawn.</summary>
    public double? BatteryHoursWithPhantom { get; init; }

    /// <summary>Storage in gigabytes (10⁹ bytes).</summary>
    public double? StorageGigabytes { get; init; }

    /// <summary>The size in gibibytes (2³⁰ bytes) at which a file is cut and the next begun; 0 when never.</summary>
    public double? SplitGibibytes { get; init; }

    /// <summary>The highest sample rate in hertz.</summary>
    public double? MaximumRateHertz { get; init; }

    /// <summary>Whether mid-side can be heard decoded while recording.</summary>
    public bool? DecodesForMonitoring { get; init; }

    /// <summary>Weight in grams with batteries.</summary>
    public double? WeightGrams { get; init; }

    /// <summary>What one costs.</summary>
    public Price? Price { get; init; }

    /// <summary>Whether it is owned; otherwise it is considered.</summary>
    public bool Owned { get; init; }

    /// <summary>Anything else worth knowing.</summary>
    public string Notes { get; init; } = "";
}
