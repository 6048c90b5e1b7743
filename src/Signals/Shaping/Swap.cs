namespace Athwart.Signals.Shaping;

/// <summary>Mid becomes side and side becomes mid: for channels plugged the wrong way round, or as a sound of its own.</summary>
public sealed record Swap;

/// <summary><see cref="Swap"/> at work: every sample keeps its bits, no latency.</summary>
public sealed class SwapStage : IPairStage
{
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
            (mid[n], side[n]) = (side[n], mid[n]);
    }
}
