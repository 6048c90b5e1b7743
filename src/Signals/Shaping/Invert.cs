namespace Athwart.Signals.Shaping;

/// <summary>Turns the polarity over. Inverting the side exchanges left and right.</summary>
public sealed record Invert
{
    /// <summary>Names what is turned over.</summary>
    /// <param name="roles">Mid, side or both.</param>
    /// <exception cref="ArgumentOutOfRangeException">The roles are none of these.</exception>
    public Invert(PairRoles roles) => Roles = SettingsRules.Roles(roles);

    /// <summary>What is turned over.</summary>
    public PairRoles Roles { get; }
}

/// <summary><see cref="Invert"/> at work: y = −x, no latency; the role not named keeps its bits.</summary>
public sealed class InvertStage(Invert settings) : IPairStage
{
    private readonly PairRoles _roles = settings.Roles;

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
            Negate(mid);
        if (_roles.HasFlag(PairRoles.Side))
            Negate(side);
    }

    private static void Negate(Span<double> samples)
    {
        foreach (ref var sample in samples)
            sample = -sample;
    }
}
