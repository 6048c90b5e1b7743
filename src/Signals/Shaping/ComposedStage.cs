namespace Athwart.Signals.Shaping;

/// <summary>A step that another kind of stage does the work of.</summary>
public abstract class ComposedStage : IPairStage
{
    private protected ComposedStage(IPairStage inner) => Inner = inner;

    /// <inheritdoc/>
    public int LatencyFrames => Inner.LatencyFrames;

    /// <inheritdoc/>
    public long SettlingFrames => Inner.SettlingFrames;

    /// <summary>The stage that does the work.</summary>
    internal IPairStage Inner { get; }

    /// <inheritdoc/>
    public void Begin(long firstFrame) => Inner.Begin(firstFrame);

    /// <inheritdoc/>
    public void Process(Span<double> mid, Span<double> side) => Inner.Process(mid, side);
}
