using Athwart.Quantities;

namespace Athwart.Microphones.Rigs;

/// <summary>How much later the side hears a far source than the mid does, because its capsule sits elsewhere.</summary>
/// <param name="Forward">Metres from the mid's capsule to the side's along the mid's axis.</param>
/// <param name="Left">Metres to the left.</param>
/// <param name="Up">Metres upwards; a source on the horizon does not hear it.</param>
/// <remarks>
/// Plane wave: delay = −(offset · direction)/c. c = 343.2·√(T/293.15) m/s, T in kelvin. Source: ISO 9613-1 for the speed of
/// sound; see docs/sources.md.
/// </remarks>
public readonly record struct CapsuleOffset(double Forward, double Left = 0, double Up = 0)
{
    private const double ReferenceSpeed = 343.2;
    private const double ReferenceKelvin = 293.15;
    private const double ZeroCelsiusKelvin = 273.15;

    /// <summary>Speed of sound in dry air in m/s.</summary>
    /// <param name="celsius">−60 to 70 degrees Celsius.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range.</exception>
    public static double SpeedOfSound(double celsius)
    {
        if (!(celsius is >= -60 and <= 70))
            throw new ArgumentOutOfRangeException(nameof(celsius), celsius, "an air temperature lies between −60 and 70 degrees Celsius");
        return ReferenceSpeed * Math.Sqrt((celsius + ZeroCelsiusKelvin) / ReferenceKelvin);
    }

    /// <summary>The side against the mid for a source at an azimuth and elevation; negative when the side is first.</summary>
    public CapsuleDelay Delay(Degrees azimuth, double celsius, Degrees elevation = default)
    {
        var level = Math.Cos(elevation.Radians);
        var ahead = (Forward * level * Math.Cos(azimuth.Radians)) + (Left * level * Math.Sin(azimuth.Radians)) + (Up * Math.Sin(elevation.Radians));
        return new(-ahead / SpeedOfSound(celsius));
    }

    /// <summary>The longest delay any direction can give: the distance between the capsules over c.</summary>
    public CapsuleDelay Longest(double celsius)
        => new(Math.Sqrt((Forward * Forward) + (Left * Left) + (Up * Up)) / SpeedOfSound(celsius));
}

/// <summary>A delay of the side against the mid.</summary>
/// <param name="Seconds">Positive when the side is later.</param>
public readonly record struct CapsuleDelay(double Seconds)
{
    /// <summary>In microseconds.</summary>
    public double Microseconds => Seconds * 1e6;

    /// <summary>In samples, with fractions, at a recording rate.</summary>
    public double Samples(Hertz rate) => Seconds * rate.Value;

    /// <summary>Where two equal signals with this delay first cancel in their sum, 1/(2·|delay|); null without delay.</summary>
    public Hertz? FirstNull => Seconds == 0 ? null : new(1 / (2 * Math.Abs(Seconds)));
}
