using Athwart.Signals.Convolution;

namespace Athwart.Signals.Shaping;

/// <summary>A curve in dB for the mid, for the side, or one for each.</summary>
/// <param name="settings">The settings the curves belong to, equal by value to those that give the same.</param>
/// <param name="midDecibels">The mid's gain in dB at a frequency in hertz; null to leave it alone.</param>
/// <param name="sideDecibels">The side's.</param>
/// <param name="sampleRateHertz">Sample rate in hertz.</param>
/// <param name="phase">Minimum or linear.</param>
internal sealed class DrawnStage(object settings, Func<double, double>? midDecibels, Func<double, double>? sideDecibels, int sampleRateHertz, FilterPhase phase)
    : CurveStage(Taps(settings, "mid", midDecibels, sampleRateHertz, phase), Taps(settings, "side", sideDecibels, sampleRateHertz, phase), phase)
{
    private static double[]? Taps(object settings, string role, Func<double, double>? decibels, int sampleRateHertz, FilterPhase phase) =>
        decibels is null ? null : DesignedTaps.Of(settings, role, SettingsRules.Rate(sampleRateHertz), () => CurveFilter.Design(decibels, sampleRateHertz, phase));
}
