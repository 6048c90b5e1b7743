using System.Globalization;

namespace Athwart.Signals.Shaping;

/// <summary>The ranges of filter settings.</summary>
public static class FilterLimits
{
    /// <summary>The lowest centre or corner, in hertz.</summary>
    public const double LowestHertz = 10;

    /// <summary>The highest centre or corner, in hertz.</summary>
    public const double HighestHertz = 40_000;

    /// <summary>The largest lift or cut of a bell or shelf, in decibels.</summary>
    public const double LargestGainDecibels = 24;

    /// <summary>The widest bell.</summary>
    public const double LowestQ = 0.1;

    /// <summary>The narrowest bell.</summary>
    public const double HighestQ = 30;

    // Above, there is no room left between the centre and half the rate.
    internal const double HighestPartOfHalfRate = 0.95;

    /// <summary>What each order of a filter adds to its slope.</summary>
    public const int DecibelsPerOctaveOfAnOrder = 6;

    /// <summary>The slope, if it is one of those on offer.</summary>
    public static int Slope(int slopeDecibelsPerOctave) => slopeDecibelsPerOctave is 6 or 12 or 18 or 24 or 30 or 36 or 42 or 48
        ? slopeDecibelsPerOctave
        : throw new ArgumentOutOfRangeException(nameof(slopeDecibelsPerOctave), slopeDecibelsPerOctave, "A cut is 6, 12, 18, 24, 30, 36, 42 or 48 dB an octave steep; choose one of these.");

    /// <summary>The rate, if the frequency lies below 0.95 of its half.</summary>
    public static int Rate(int sampleRateHertz, double hertz) => hertz <= HighestPartOfHalfRate * SettingsRules.Rate(sampleRateHertz) / 2
        ? sampleRateHertz
        : throw new ArgumentOutOfRangeException(nameof(sampleRateHertz), sampleRateHertz, string.Create(CultureInfo.InvariantCulture, $"A filter at {hertz} Hz has no room below half the sample rate ({sampleRateHertz / 2.0} Hz); leave the step out or set it below {HighestPartOfHalfRate * sampleRateHertz / 2} Hz."));
}
