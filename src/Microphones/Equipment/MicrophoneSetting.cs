using Athwart.Microphones.Patterns;

namespace Athwart.Microphones.Equipment;

/// <summary>One pattern a microphone can have, with the figures that go with it: the only one, a switch position, or a capsule on the same body.</summary>
public sealed record MicrophoneSetting
{
    /// <summary>What the switch or the capsule says; empty where the microphone has one pattern only.</summary>
    public string Label { get; init; } = "";

    /// <summary>How it hears by direction.</summary>
    public required IPattern Pattern { get; init; }

    /// <summary>Open-circuit sensitivity at 1 kHz in mV/Pa; null when not known.</summary>
    public double? SensitivityMillivoltsPerPascal { get; init; }

    /// <summary>Equivalent noise level, A-weighted, in dB SPL; null when not known.</summary>
    public double? EquivalentNoiseDecibelsA { get; init; }

    /// <summary>Highest sound pressure level in dB SPL, as the maker gives it; null when not known.</summary>
    public double? MaximumLevelDecibels { get; init; }

    /// <summary>Where the low end is 3 dB down, in hertz; null when not known.</summary>
    public double? LowHertz { get; init; }

    /// <summary>Where the high end is 3 dB down, in hertz; null when not known.</summary>
    public double? HighHertz { get; init; }
}
