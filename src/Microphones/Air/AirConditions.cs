using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Air;

/// <summary>The weather as sound feels it.</summary>
/// <param name="TemperatureCelsius">From −50 to 60 °C; the standard tabulates −20 to 50.</param>
/// <param name="HumidityPercent">Relative humidity, from 0 to 100 %.</param>
/// <param name="PressureKilopascals">Above 0, up to 200 kPa; 101.325 is the standard's reference.</param>
public readonly record struct AirConditions(double TemperatureCelsius, double HumidityPercent, double PressureKilopascals = AirConditions.ReferenceKilopascals)
{
    /// <summary>The reference pressure of ISO 9613-1, 101.325 kPa.</summary>
    public const double ReferenceKilopascals = 101.325;

    /// <summary>20 °C, 50 %, 101.325 kPa.</summary>
    public static AirConditions Mild { get; } = new(20, 50);

    /// <summary>These conditions, when they lie in the ranges above.</summary>
    /// <exception cref="ArgumentOutOfRangeException">One of them does not.</exception>
    public AirConditions Checked()
    {
        Require.Within(TemperatureCelsius, -50, 60);
        Require.Within(HumidityPercent, 0, 100);
        Require.Within(Require.Positive(PressureKilopascals), 0, 200);
        return this;
    }
}
