namespace Athwart.Microphones.Levels;

/// <summary>The A weighting of sound level meters in closed form, 0 dB at 1 kHz.</summary>
/// <remarks>Source: IEC 61672-1:2013, Annex E, pole frequencies quoted from open acoustics libraries; see docs/sources.md#iec61672.</remarks>
public static class WeightingA
{
    internal const double Pole1 = 20.598997;
    internal const double Pole2 = 107.65265;
    internal const double Pole3 = 737.86223;
    internal const double Pole4 = 12194.217;

    private static readonly double AtOneKilohertz = Unscaled(1000);

    /// <summary>The weighting in dB at a frequency above 0 Hz; −∞ at 0.</summary>
    public static double Decibels(double hertz) => 20 * Math.Log10(Unscaled(Require.NotNegative(hertz)) / AtOneKilohertz);

    /// <summary>The weighting as a power ratio, 1 at 1 kHz.</summary>
    public static double Power(double hertz)
    {
        var ratio = Unscaled(Require.NotNegative(hertz)) / AtOneKilohertz;
        return ratio * ratio;
    }

    private static double Unscaled(double hertz)
    {
        var square = hertz * hertz;
        return Pole4 * Pole4 * square * square
            / ((square + (Pole1 * Pole1)) * Math.Sqrt((square + (Pole2 * Pole2)) * (square + (Pole3 * Pole3))) * (square + (Pole4 * Pole4)));
    }
}

/// <summary>The C weighting of sound level meters in closed form, 0 dB at 1 kHz.</summary>
/// <remarks>Source: as <see cref="WeightingA"/>.</remarks>
public static class WeightingC
{
    private static readonly double AtOneKilohertz = Unscaled(1000);

    /// <summary>The weighting in dB at a frequency above 0 Hz; −∞ at 0.</summary>
    public static double Decibels(double hertz) => 20 * Math.Log10(Unscaled(Require.NotNegative(hertz)) / AtOneKilohertz);

    private static double Unscaled(double hertz)
    {
        var square = hertz * hertz;
        return WeightingA.Pole4 * WeightingA.Pole4 * square
            / ((square + (WeightingA.Pole1 * WeightingA.Pole1)) * (square + (WeightingA.Pole4 * WeightingA.Pole4)));
    }
}
