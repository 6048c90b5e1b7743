using Athwart.Signals.Convolution;
using Athwart.Signals.Filters;
using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping;

/// <summary>Mono below a corner: the side's low end is taken away, the mid is left alone. The opposite of <see cref="Shuffler"/>.</summary>
public sealed record MonoBelow
{
    private readonly EquatableList<AnalogueSection> _prototype;

    /// <summary>Names the corner.</summary>
    /// <param name="cornerHertz">Where the side is 3 dB down, 20 to 2000 Hz.</param>
    /// <param name="slopeDecibelsPerOctave">6 to 48 dB an octave, a multiple of 6.</param>
    /// <param name="phase">Minimum: a Butterworth low cut, whose phase turns around the corner; linear: the same amplitude, no phase.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is out of range.</exception>
    public MonoBelow(double cornerHertz, int slopeDecibelsPerOctave, FilterPhase phase)
    {
        CornerHertz = SettingsRules.Within(cornerHertz, 20, 2000, "Hz");
        SlopeDecibelsPerOctave = FilterLimits.Slope(slopeDecibelsPerOctave);
        Phase = CurveRules.Phase(phase);
        _prototype = new(new LowCut(PairRoles.Side, CornerHertz, SlopeDecibelsPerOctave).Prototype);
    }

    /// <summary>Where the side is 3 dB down, in hertz.</summary>
    public double CornerHertz { get; }

    /// <summary>How steep, in decibels an octave.</summary>
    public int SlopeDecibelsPerOctave { get; }

    /// <summary>Minimum or linear phase.</summary>
    public FilterPhase Phase { get; }

    /// <summary>The side's gain in dB at a frequency in hertz.</summary>
    public double DecibelsAt(double hertz) => _prototype.Sum(s => FixedExponential.Decibels(s.AmplitudeRatioAt(hertz)));
}

/// <summary><see cref="MonoBelow"/> at work.</summary>
/// <param name="settings">What to do.</param>
/// <param name="sampleRateHertz">Sample rate in hertz.</param>
public sealed class MonoBelowStage(MonoBelow settings, int sampleRateHertz) : ComposedStage(settings.Phase == FilterPhase.Minimum
    ? new LowCutStage(new(PairRoles.Side, settings.CornerHertz, settings.SlopeDecibelsPerOctave), sampleRateHertz)
    : new DrawnStage(settings, null, settings.DecibelsAt, sampleRateHertz, FilterPhase.Linear));
