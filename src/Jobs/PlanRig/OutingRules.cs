using System.Globalization;
using Athwart.Microphones.Air;
using Athwart.Microphones.Rigs;
using Athwart.Microphones.Subjects;

namespace Athwart.Jobs.PlanRig;

/// <summary>What an outing may be, with words for what it may not.</summary>
public static class OutingRules
{
    /// <summary>The outing itself, when it is possible.</summary>
    /// <exception cref="JobException">A value cannot be; it is named with what can.</exception>
    public static Outing Checked(Outing outing)
    {
        ArgumentNullException.ThrowIfNull(outing);
        Within(outing.QuietestDecibels, -10, 194, "The quietest level", "dB SPL");
        Within(outing.LoudestDecibels, 0, 194, "The loudest level", "dB SPL (194 dB is as loud as a sine in air can be)");
        if (outing is { QuietestDecibels: { } quietest, LoudestDecibels: { } loudest } && quietest > loudest)
            throw Wrong($"The quietest level of {Text(quietest)} dB is above the loudest of {Text(loudest)} dB.", "Change the two over.");
        Within(outing.CrestDecibels, 0, 60, "The crest", "dB");
        Within(outing.HeadroomDecibels, 0, 40, "The headroom", "dB");
        Within(outing.Threshold.Value, 3, 60, "The threshold", "dB");
        Within(outing.Still?.WidthMetres, 0, 10_000, "The width", "m");
        Within(outing.DistanceMetres, 0.05, 10_000, "The distance", "m");
        Within(outing.RateHertz, 8000, 768_000, "The sample rate", "Hz");
        if (outing.WordBits is not (16 or 24 or 32))
            throw Wrong($"A sample of {outing.WordBits} bits is not recorded.", "Write 16, 24 or 32.");
        Within(outing.Source?.BandDecibels, 0, 194, "The source's level", "dB SPL");
        Within(outing.HeadphonesDecibelsA, 20, 140, "The monitoring level", "dBA");
        Within(outing.Hours, 0, 24, "The hours", "h");
        return outing;
    }

    /// <summary>The side's capsule before (+) or behind (−) the mid's.</summary>
    public static CapsuleOffset Spacing(double millimetres)
    {
        Within(millimetres, -2000, 2000, "The spacing", "mm");
        return new(millimetres / 1000);
    }

    /// <summary>The weather; 20 °C, 50 % and 101.325 kPa where not said.</summary>
    public static AirConditions Air(double? celsius, double? percent, double? kilopascals)
    {
        Within(celsius, -40, 55, "The temperature", "°C");
        Within(percent, 1, 100, "The humidity", "%");
        Within(kilopascals, 30, 110, "The pressure", "kPa");
        return new(celsius ?? AirConditions.Mild.TemperatureCelsius, percent ?? AirConditions.Mild.HumidityPercent, kilopascals ?? AirConditions.ReferenceKilopascals);
    }

    /// <summary>A source with its slope.</summary>
    public static SourceSpectrum Source(double level, double slope)
    {
        Within(slope, -30, 30, "The slope", "dB per octave");
        return new(level, SlopeDecibelsPerOctave: slope);
    }

    /// <summary>A path that passes.</summary>
    public static SubjectPath Path(double length, double closest, bool fromRight, double? speed)
    {
        Within(length, 0.1, 100_000, "The path", "m");
        Within(closest, 0.05, 10_000, "The distance", "m");
        Within(speed, 0.01, 1000, "The speed", "m/s");
        return new() { LengthMetres = length, ClosestMetres = closest, From = fromRight ? PassingFrom.Right : PassingFrom.Left, MetresPerSecond = speed };
    }

    private static void Within(double? value, double low, double high, string what, string unit)
    {
        if (value is { } v && !(v >= low && v <= high))
            throw Wrong($"{what} cannot be {Text(v)}.", $"Write a number from {Text(low)} to {Text(high)} {unit}.");
    }

    private static JobException Wrong(string message, string remedy) => new(JobErrorKind.WrongUse, message, remedy);

    private static string Text(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
