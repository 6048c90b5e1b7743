namespace Athwart.Microphones.Levels;

/// <summary>What a microphone gives for a sound, and what noise counts as sound at it. Sensitivities are open-circuit, in mV/Pa, above 0.</summary>
/// <remarks>Source: IEC 60268-4, 11.1 (sensitivity level) and 17.2 (equivalent noise level), quoted; see docs/sources.md#iec60268-4.</remarks>
public static class MicrophoneLevels
{
    /// <summary>Sensitivity level in dB against 1 V/Pa: 20·lg(M / 1 V/Pa).</summary>
    /// <exception cref="ArgumentOutOfRangeException">The sensitivity is not above 0.</exception>
    public static double SensitivityDecibelsV(double millivoltsPerPascal)
        => Voltage.ToDecibelsV(Require.Positive(millivoltsPerPascal) / 1000);

    /// <summary>Output in volts RMS for a sound of a level in dB SPL on the axis.</summary>
    public static double OutputVolts(double millivoltsPerPascal, double soundDecibels)
        => Require.Positive(millivoltsPerPascal) / 1000 * SoundPressure.ToPascals(soundDecibels);

    /// <summary>Output in dBV for a sound of a level in dB SPL on the axis.</summary>
    public static double OutputDecibelsV(double millivoltsPerPascal, double soundDecibels)
        => SensitivityDecibelsV(millivoltsPerPascal) + soundDecibels - SoundPressure.OnePascalDecibels;

    /// <summary>Output in dBu for a sound of a level in dB SPL on the axis.</summary>
    public static double OutputDecibelsU(double millivoltsPerPascal, double soundDecibels)
        => OutputDecibelsV(millivoltsPerPascal, soundDecibels) + Voltage.DecibelsUAboveDecibelsV;

    /// <summary>The sound in dB SPL on the axis that gives an output in dBu; A-weighted in, A-weighted out.</summary>
    /// <remarks>Turns an input's noise in dBu into the sound it equals: noise in dBu − sensitivity level in dBu/Pa + 93.979.</remarks>
    public static double SoundDecibels(double millivoltsPerPascal, double outputDecibelsU)
        => outputDecibelsU - Voltage.DecibelsUAboveDecibelsV - SensitivityDecibelsV(millivoltsPerPascal) + SoundPressure.OnePascalDecibels;

    /// <summary>The noise voltage in volts RMS, A-weighted, of an equivalent noise level in dBA: UN = M·p0·10^(LN/20).</summary>
    public static double NoiseVolts(double millivoltsPerPascal, double equivalentNoiseDecibelsA)
        => OutputVolts(millivoltsPerPascal, equivalentNoiseDecibelsA);

    /// <summary>The equivalent noise level in dB of a noise voltage: LN = 20·lg(UN / (M·p0)), weighted as the voltage is.</summary>
    public static double EquivalentNoiseDecibels(double millivoltsPerPascal, double noiseVolts)
        => SoundPressure.FromPascals(noiseVolts / (Require.Positive(millivoltsPerPascal) / 1000));

    /// <summary>Signal-to-noise ratio in dB as data sheets give it, for a sound of 1 Pa: 93.979 − LN.</summary>
    public static double SignalToNoiseDecibels(double equivalentNoiseDecibels) => SoundPressure.OnePascalDecibels - equivalentNoiseDecibels;

    /// <summary>From the equivalent noise level to the highest level, in dB.</summary>
    public static double DynamicRangeDecibels(double maximumDecibels, double equivalentNoiseDecibels) => maximumDecibels - equivalentNoiseDecibels;

    /// <summary>The gain in dB that the side needs more than the mid so that both answer alike: sensitivity level of the mid − that of the side.</summary>
    public static double MatchDecibels(double midMillivoltsPerPascal, double sideMillivoltsPerPascal)
        => SensitivityDecibelsV(midMillivoltsPerPascal) - SensitivityDecibelsV(sideMillivoltsPerPascal);
}
