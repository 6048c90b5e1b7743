namespace Athwart.Microphones.Levels;

/// <summary>Between volts RMS and their levels: dBV against 1 V, dBu against √0.6 V; dBu = dBV + 2.2185.</summary>
/// <remarks>Source: √0.6 V from memory (1 mW in 600 Ω); the 2.21 dB quoted from an open acoustics library.</remarks>
public static class Voltage
{
    /// <summary>The voltage of 0 dBu, √0.6 V = 0.774597 V.</summary>
    public static double ZeroDecibelsUVolts { get; } = Math.Sqrt(0.6);

    /// <summary>What a level in dBu reads more than in dBV, 2.2185 dB.</summary>
    public static double DecibelsUAboveDecibelsV { get; } = -10 * Math.Log10(0.6);

    /// <summary>dBV of volts RMS; −∞ for 0 V.</summary>
    public static double ToDecibelsV(double volts) => 20 * Math.Log10(volts);

    /// <summary>dBu of volts RMS; −∞ for 0 V.</summary>
    public static double ToDecibelsU(double volts) => ToDecibelsV(volts) + DecibelsUAboveDecibelsV;

    /// <summary>Volts RMS of a level in dBV.</summary>
    public static double FromDecibelsV(double decibelsV) => Math.Pow(10, decibelsV / 20);

    /// <summary>Volts RMS of a level in dBu.</summary>
    public static double FromDecibelsU(double decibelsU) => FromDecibelsV(decibelsU - DecibelsUAboveDecibelsV);
}
