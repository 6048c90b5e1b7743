using Athwart.Signals.Filters;

namespace Athwart.Signals.Shaping;

/// <summary>A shelf above a corner: boosts or cuts the high end.</summary>
public sealed record HighShelf
{
    /// <summary>Names what is treated and how.</summary>
    /// <param name="roles">Mid, side or both.</param>
    /// <param name="cornerHertz">Corner frequency, where half the gain in dB is reached, 10 Hz to 40 kHz; below 0.95 of half the sample rate it is used at.</param>
    /// <param name="gainDecibels">−24 to +24 dB.</param>
    /// <param name="q">0.1 to 30; 0.707 is the steepest without overshoot.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is out of range.</exception>
    public HighShelf(PairRoles roles, double cornerHertz, double gainDecibels, double q)
    {
        Roles = SettingsRules.Roles(roles);
        CornerHertz = SettingsRules.Within(cornerHertz, FilterLimits.LowestHertz, FilterLimits.HighestHertz, "Hz");
        GainDecibels = SettingsRules.Within(gainDecibels, -FilterLimits.LargestGainDecibels, FilterLimits.LargestGainDecibels, "dB");
        Q = SettingsRules.Within(q, FilterLimits.LowestQ, FilterLimits.HighestQ, "(no unit)");
    }

    /// <summary>What is treated.</summary>
    public PairRoles Roles { get; }

    /// <summary>Corner frequency, where half the gain in dB is reached, in hertz.</summary>
    public double CornerHertz { get; }

    /// <summary>Gain far above the corner, in decibels.</summary>
    public double GainDecibels { get; }

    /// <summary>Steepness; 0.707 is the steepest without overshoot.</summary>
    public double Q { get; }

    /// <summary>The analogue filter it follows.</summary>
    public AnalogueSection Prototype => AnalogueSection.HighShelf(CornerHertz, GainDecibels, Q);
}

/// <summary><see cref="HighShelf"/> at work: within 0.1 dB of the analogue filter to 0.9 of half the rate.</summary>
/// <param name="settings">What to do.</param>
/// <param name="sampleRateHertz">Sample rate in hertz.</param>
/// <exception cref="ArgumentOutOfRangeException">The frequency is too near half the rate.</exception>
public sealed class HighShelfStage(HighShelf settings, int sampleRateHertz)
    : SectionStage(settings.Roles, MatchedDesign.Sections(settings.Prototype, FilterLimits.Rate(sampleRateHertz, settings.CornerHertz)));
