namespace Athwart.Signals.Shaping;

/// <summary>Raises or lowers by a fixed number of decibels.</summary>
public sealed record Trim
{
    /// <summary>The largest trim either way, in decibels; enough for a recorder's whole gain range.</summary>
    public const double LargestDecibels = 100;

    /// <summary>Names what is trimmed and by how much.</summary>
    /// <param name="roles">Mid, side or both.</param>
    /// <param name="gainDecibels">−100 to +100 dB, or −∞ to silence.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is out of range.</exception>
    public Trim(PairRoles roles, double gainDecibels)
    {
        Roles = SettingsRules.Roles(roles);
        GainDecibels = double.IsNegativeInfinity(gainDecibels)
            ? gainDecibels
            : SettingsRules.Within(gainDecibels, -LargestDecibels, LargestDecibels, "dB");
    }

    /// <summary>What is trimmed.</summary>
    public PairRoles Roles { get; }

    /// <summary>By how much, in decibels; −∞ is silence.</summary>
    public double GainDecibels { get; }
}

/// <summary><see cref="Trim"/> at work: y = g·x, no latency; 0 dB keeps every bit, and so does the role not named.</summary>
public sealed class TrimStage(Trim settings) : IPairStage
{
    private readonly PairRoles _roles = settings.Roles;
    private readonly double _gain = SettingsRules.Ratio(settings.GainDecibels);

    /// <inheritdoc/>
    public int LatencyFrames => 0;

    /// <inheritdoc/>
    public long SettlingFrames => 0;

    /// <inheritdoc/>
    public void Begin(long firstFrame)
    {
    }

    /// <inheritdoc/>
    public void Process(Span<double> mid, Span<double> side)
    {
        SettingsRules.SameLength(mid, side);
        if (_roles.HasFlag(PairRoles.Mid))
            Scale(mid);
        if (_roles.HasFlag(PairRoles.Side))
            Scale(side);
    }

    private void Scale(Span<double> samples)
    {
        foreach (ref var sample in samples)
            sample *= _gain;
    }
}
