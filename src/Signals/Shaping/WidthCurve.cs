using Athwart.Signals.Convolution;

namespace Athwart.Signals.Shaping;

/// <summary>Width over frequency: the side's gain as a smooth curve through points; the mid is left alone.</summary>
public sealed record WidthCurve
{
    /// <summary>The most points a curve may have.</summary>
    public const int MostPoints = 64;

    private readonly EquatableList<CurvePoint> _points;

    /// <summary>Draws the curve.</summary>
    /// <param name="points">1 to 64 points with rising frequencies, 10 Hz to 100 kHz, −60 to +24 dB; level before the first and after the last.</param>
    /// <param name="phase">Minimum or linear phase.</param>
    /// <exception cref="ArgumentException">The points are none, too many, out of order or out of range.</exception>
    public WidthCurve(IReadOnlyList<CurvePoint> points, FilterPhase phase)
    {
        _points = CurveRules.Points(points, MostPoints, -60, FilterLimits.LargestGainDecibels);
        Phase = CurveRules.Phase(phase);
    }

    /// <summary>The points the curve goes through.</summary>
    public IReadOnlyList<CurvePoint> Points => _points;

    /// <summary>Minimum or linear phase.</summary>
    public FilterPhase Phase { get; }

    /// <summary>The side's gain in dB at a frequency in hertz.</summary>
    public double DecibelsAt(double hertz) => new SmoothCurve(Points).DecibelsAt(hertz);
}

/// <summary><see cref="WidthCurve"/> at work.</summary>
/// <param name="settings">What to do.</param>
/// <param name="sampleRateHertz">Sample rate in hertz.</param>
public sealed class WidthCurveStage(WidthCurve settings, int sampleRateHertz)
    : CurveStage(null, DesignedTaps.Of(settings, "side", SettingsRules.Rate(sampleRateHertz), () => CurveFilter.Design(new SmoothCurve(settings.Points).DecibelsAt, sampleRateHertz, settings.Phase)), settings.Phase);
