using Athwart.Signals.Filters;

namespace Athwart.Signals.Shaping;

/// <summary>Takes away the low end (rumble, handling, wind), as Butterworth: −3 dB at the cut-off, no ripple, 6 to 48 dB an octave.</summary>
public sealed record LowCut
{
    /// <summary>Names what is treated and how.</summary>
    /// <param name="roles">Mid, side or both.</param>
    /// <param name="cutoffHertz">Where it is 3 dB down, 10 Hz to 40 kHz; below 0.95 of half the sample rate it is used at.</param>
    /// <param name="slopeDecibelsPerOctave">6, 12, 18, 24, 30, 36, 42 or 48 dB an octave.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is out of range.</exception>
    public LowCut(PairRoles roles, double cutoffHertz, int slopeDecibelsPerOctave)
    {
        Roles = SettingsRules.Roles(roles);
        CutoffHertz = SettingsRules.Within(cutoffHertz, FilterLimits.LowestHertz, FilterLimits.HighestHertz, "Hz");
        SlopeDecibelsPerOctave = FilterLimits.Slope(slopeDecibelsPerOctave);
    }

    /// <summary>What is treated.</summary>
    public PairRoles Roles { get; }

    /// <summary>Where it is 3 dB down, in hertz.</summary>
    public double CutoffHertz { get; }

    /// <summary>How steep, in decibels an octave; a multiple of 6.</summary>
    public int SlopeDecibelsPerOctave { get; }

    /// <summary>The analogue filter it follows, section by section.</summary>
    public IReadOnlyList<AnalogueSection> Prototype => AnalogueSection.ButterworthLowCut(CutoffHertz, SlopeDecibelsPerOctave / FilterLimits.DecibelsPerOctaveOfAnOrder);
}

/// <summary><see cref="LowCut"/> at work: each section within 0.05 dB of the analogue one to 0.9 of half the rate.</summary>
/// <param name="settings">What to do.</param>
/// <param name="sampleRateHertz">Sample rate in hertz.</param>
/// <exception cref="ArgumentOutOfRangeException">The frequency is too near half the rate.</exception>
public sealed class LowCutStage(LowCut settings, int sampleRateHertz)
    : SectionStage(settings.Roles, [.. settings.Prototype.SelectMany(p => MatchedDesign.Sections(p, FilterLimits.Rate(sampleRateHertz, settings.CutoffHertz)))]);
