namespace Athwart.Signals.Shaping;

/// <summary>Raises or lowers what starts suddenly and what lasts, apart from each other, in mid, side or both.</summary>
/// <remarks>
/// Two energy followers run side by side, a quick one and a slow one. Where the quick one is ahead, the sound is starting: its share of transient
/// is 1 − slow/quick, 0 to 1, and the gain lies that far from the sustain's towards the transient's. Lowering the sustain of the mid and the
/// transients of the side keeps the strike in the middle and the room around it.
/// </remarks>
public sealed record TransientBalance
{
    /// <summary>Names the two gains and the two followers.</summary>
    /// <param name="roles">Mid, side or both; each follows itself.</param>
    /// <param name="transientDecibels">Gain of what starts, −40 to +20 dB.</param>
    /// <param name="sustainDecibels">Gain of what lasts, −40 to +20 dB.</param>
    /// <param name="quickSeconds">Time constant of the quick follower, 0.0005 to 0.02 s; 0.002 unless stated.</param>
    /// <param name="slowSeconds">Time constant of the slow follower, 0.02 to 0.5 s; 0.08 unless stated: how long a strike counts as one.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is out of range.</exception>
    public TransientBalance(PairRoles roles, double transientDecibels, double sustainDecibels, double quickSeconds = 0.002, double slowSeconds = 0.08)
    {
        Roles = SettingsRules.Roles(roles);
        TransientDecibels = SettingsRules.Within(transientDecibels, -40, 20, "dB");
        SustainDecibels = SettingsRules.Within(sustainDecibels, -40, 20, "dB");
        QuickSeconds = SettingsRules.Within(quickSeconds, 0.0005, 0.02, "s");
        SlowSeconds = SettingsRules.Within(slowSeconds, 0.02, 0.5, "s");
    }

    /// <summary>What is shaped.</summary>
    public PairRoles Roles { get; }

    /// <summary>Gain of what starts, in decibels.</summary>
    public double TransientDecibels { get; }

    /// <summary>Gain of what lasts, in decibels.</summary>
    public double SustainDecibels { get; }

    /// <summary>Time constant of the quick follower, in seconds.</summary>
    public double QuickSeconds { get; }

    /// <summary>Time constant of the slow follower, in seconds.</summary>
    public double SlowSeconds { get; }
}
