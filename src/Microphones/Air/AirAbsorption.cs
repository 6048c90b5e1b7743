using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Air;

/// <summary>What air takes from a pure tone on its way, in dB per metre.</summary>
/// <remarks>
/// Source: ISO 9613-1:1993, equations 3 to 5 and annex B, quoted from open acoustics libraries; see docs/sources.md#iso9613. The standard
/// covers 50 Hz to 10 kHz and states its formula well beyond (frequency over pressure up to 10 Hz/Pa, from memory), which reaches 100 kHz.
/// </remarks>
public static class AirAbsorption
{
    /// <summary>The highest frequency answered, 100 kHz.</summary>
    public const double HighestHertz = 100_000;

    private const double ReferenceKelvin = 293.15;
    private const double TriplePointKelvin = 273.16;

    /// <summary>The loss in dB per metre.</summary>
    /// <param name="air">The weather.</param>
    /// <param name="hertz">From 0 (no loss) to 100 000 Hz.</param>
    /// <exception cref="ArgumentOutOfRangeException">The weather or the frequency is out of range.</exception>
    public static double DecibelsPerMetre(AirConditions air, double hertz)
    {
        air.Checked();
        Require.Within(hertz, 0, HighestHertz);
        var pressure = air.PressureKilopascals / AirConditions.ReferenceKilopascals;
        var kelvin = air.TemperatureCelsius + 273.15;
        var ratio = kelvin / ReferenceKelvin;
        var vapour = WaterVapourPercent(air, kelvin, pressure);
        var oxygen = OxygenHertz(vapour, pressure);
        var nitrogen = NitrogenHertz(vapour, pressure, ratio);
        var square = hertz * hertz;
        var relaxation = (0.01275 * Math.Exp(-2239.1 / kelvin) / (oxygen + (square / oxygen)))
            + (0.1068 * Math.Exp(-3352.0 / kelvin) / (nitrogen + (square / nitrogen)));
        return 8.686 * square * ((1.84e-11 / pressure * Math.Sqrt(ratio)) + (Math.Pow(ratio, -2.5) * relaxation));
    }

    /// <summary>Molar concentration of water vapour in %.</summary>
    private static double WaterVapourPercent(AirConditions air, double kelvin, double pressure)
        => air.HumidityPercent * Math.Pow(10, (-6.8346 * Math.Pow(TriplePointKelvin / kelvin, 1.261)) + 4.6151) / pressure;

    private static double OxygenHertz(double vapour, double pressure)
        => pressure * (24 + (4.04e4 * vapour * (0.02 + vapour) / (0.391 + vapour)));

    private static double NitrogenHertz(double vapour, double pressure, double ratio)
        => pressure / Math.Sqrt(ratio) * (9 + (280 * vapour * Math.Exp(-4.170 * (Math.Pow(ratio, -1.0 / 3) - 1))));
}
