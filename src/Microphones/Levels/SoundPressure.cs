namespace Athwart.Microphones.Levels;

/// <summary>Between sound pressure in pascals and sound pressure level in dB: L = 20·lg(p / 20 µPa).</summary>
/// <remarks>Source: IEC 60268-4, quoted; see docs/sources.md#iec60268-4.</remarks>
public static class SoundPressure
{
    /// <summary>The pressure of 0 dB SPL, 20 µPa.</summary>
    public const double ReferencePascals = 20e-6;

    /// <summary>A sine's peak above its RMS, 20·lg √2 = 3.0103 dB.</summary>
    public static double SineCrestDecibels { get; } = 10 * Math.Log10(2);

    /// <summary>The level of 1 Pa, 93.979 dB SPL.</summary>
    public static double OnePascalDecibels { get; } = FromPascals(1);

    /// <summary>The level in dB SPL of a pressure of 0 Pa or more; −∞ for 0.</summary>
    public static double FromPascals(double pascals) => 20 * Math.Log10(pascals / ReferencePascals);

    /// <summary>The pressure in pascals of a level in dB SPL; 0 for −∞.</summary>
    public static double ToPascals(double decibels) => ReferencePascals * Math.Pow(10, decibels / 20);

    /// <summary>The level of sounds that have nothing to do with each other, their powers added; −∞ for none.</summary>
    public static double PowerSum(params ReadOnlySpan<double> decibels)
    {
        var power = 0.0;
        foreach (var level in decibels)
            power += Math.Pow(10, level / 10);
        return 10 * Math.Log10(power);
    }
}
