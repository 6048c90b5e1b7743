using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Air;

/// <summary>How a sound falls off with distance in the open, from a source that is small against the distance.</summary>
/// <remarks>Source: ISO 9613-2:1996, equation 7 (20·lg(d/d0) + 11 dB from the sound power), quoted; see docs/sources.md#iso9613. No ground, wall or wind.</remarks>
public static class SoundPath
{
    /// <summary>What the spreading takes between two distances from the source in metres, in dB: 20·lg(to/from), negative when coming nearer.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A distance is not above 0.</exception>
    public static double SpreadingDecibels(double fromMetres, double toMetres)
        => 20 * Math.Log10(Require.Positive(toMetres) / Require.Positive(fromMetres));

    /// <summary>From the level of a source's sound power (re 1 pW) to the sound pressure level at a distance, in dB: 20·lg(d / 1 m) + 11.</summary>
    public static double DivergenceDecibels(double metres) => SpreadingDecibels(1, metres) + 11;

    /// <summary>The level in dB SPL at one distance from the level known at another, by spreading alone.</summary>
    public static double LevelDecibels(double knownDecibels, double knownMetres, double metres)
        => Require.Finite(knownDecibels) - SpreadingDecibels(knownMetres, metres);

    /// <summary>The same with what the air takes at a frequency in hertz.</summary>
    public static double LevelDecibels(double knownDecibels, double knownMetres, double metres, AirConditions air, double hertz)
        => LevelDecibels(knownDecibels, knownMetres, metres) - (AirAbsorption.DecibelsPerMetre(air, hertz) * (metres - knownMetres));
}
