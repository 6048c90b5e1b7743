using Athwart.Signals.Convolution;

namespace Athwart.Signals.Shaping;

/// <summary>A curve in dB for the mid, for the side, or one for each.</summary>
internal sealed class DrawnStage(Func<double, double>? midDecibels, Func<double, double>? sideDecibels, int sampleRateHertz, FilterPhase phase)
    : CurveStage(Taps(midDecibels, sampleRateHertz, phase), Taps(sideDecibels, sampleRateHertz, phase), phase)
{
    private static double[]? Taps(Func<double, double>? decibels, int sampleRateHertz, FilterPhase phase) =>
        decibels is null ? null : CurveFilter.Design(decibels, SettingsRules.Rate(sampleRateHertz), phase);
}
