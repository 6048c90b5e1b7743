using Athwart.Signals.Filters;

namespace Athwart.Signals.Shaping;

/// <summary>A parametric bell: boosts or cuts around a centre.</summary>
public sealed record Bell
{
    /// <summary>Names what is treated and how.</summary>
    /// <param name="roles">Mid, side or both.</param>
    /// <param name="centreHertz">Centre frequency, 10 Hz to 40 kHz; below 0.95 of half the sample rate it is used at.</param>
    /// <param name="gainDecibels">−24 to +24 dB.</param>
    /// <param name="q">0.1 to 30: the centre over the distance between the places where the gain in dB is half.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is out of range.</exception>
    public Bell(PairRoles roles, double centreHertz, double gainDecibels, double q)
    {
        Roles = SettingsRules.Roles(roles);
        CentreHertz = SettingsRules.Within(centreHertz, FilterLimits.LowestHertz, FilterLimits.HighestHertz, "Hz");
        GainDecibels = SettingsRules.Within(gainDecibels, -FilterLimits.LargestGainDecibels, FilterLimits.LargestGainDecibels, "dB");
        Q = SettingsRules.Within(q, FilterLimits.LowestQ, FilterLimits.HighestQ, "(no unit)");
    }

    /// <summary>What is treated.</summary>
    public PairRoles Roles { get; }

    /// <summary>Centre frequency, in hertz.</summary>
    public double CentreHertz { get; }

    /// <summary>Gain at the centre, in decibels.</summary>
    public double GainDecibels { get; }

    /// <summary>The centre over the distance between the places where the gain in dB is half.</summary>
    public double Q { get; }

    /// <summary>The analogue filter it follows.</summary>
    public AnalogueSection Prototype => AnalogueSection.Bell(CentreHertz, GainDecibels, Q);
}

/// <summary><see cref="Bell"/> at work: within 0.1 dB of the analogue filter to 0.9 of half the rate.</summary>
/// <param name="settings">What to do.</param>
/// <param name="sampleRateHertz">Sample rate in hertz.</param>
/// <exception cref="ArgumentOutOfRangeException">The frequency is too near half the rate.</exception>
public sealed class BellStage(Bell settings, int sampleRateHertz)
    : SectionStage(settings.Roles, MatchedDesign.Sections(settings.Prototype, FilterLimits.Rate(sampleRateHertz, settings.CentreHertz)));
