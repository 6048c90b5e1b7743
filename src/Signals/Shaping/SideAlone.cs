namespace Athwart.Signals.Shaping;

/// <summary>The side as a texture of its own: it takes the place of the mid, and the mid, as loud as wanted, that of the side.</summary>
/// <remarks>At −∞ dB nothing is left but the side, in mono; at 0 dB the two have changed places, as by <see cref="Swap"/>.</remarks>
public sealed record SideAlone
{
    /// <summary>Names how much of the mid stays, as the new side.</summary>
    /// <param name="midAsSideDecibels">−∞ or −100 to +40 dB; −∞ unless stated.</param>
    /// <exception cref="ArgumentOutOfRangeException">The level is out of range.</exception>
    public SideAlone(double midAsSideDecibels = double.NegativeInfinity) => MidAsSideDecibels = double.IsNegativeInfinity(midAsSideDecibels)
        ? midAsSideDecibels
        : SettingsRules.Within(midAsSideDecibels, -100, 40, "dB");

    /// <summary>The gain of the mid in its new place, in decibels.</summary>
    public double MidAsSideDecibels { get; }
}

/// <summary><see cref="SideAlone"/> at work: what was the side keeps its bits, no latency.</summary>
public sealed class SideAloneStage : IPairStage
{
    private readonly double _gain;

    /// <summary>A stage for a level.</summary>
    public SideAloneStage(SideAlone settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        _gain = SettingsRules.Ratio(settings.MidAsSideDecibels);
    }

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
        for (var n = 0; n < mid.Length; n++)
            (mid[n], side[n]) = (side[n], _gain * mid[n]);
    }
}
