using Athwart.Signals.Convolution;
using Athwart.Signals.Delays;

namespace Athwart.Signals.Shaping;

/// <summary>A step whose filter is drawn as a curve. A role not treated is held back by the latency and keeps its bits.</summary>
public class CurveStage : IPairStage
{
    private readonly LongFilter? _mid;
    private readonly LongFilter? _side;
    private readonly DelayLine _midLine;
    private readonly DelayLine _sideLine;

    /// <summary>Lays taps over the roles.</summary>
    /// <param name="midTaps">For the mid; null to leave it alone.</param>
    /// <param name="sideTaps">For the side; null to leave it alone.</param>
    /// <param name="phase">Linear phase: both have an odd number of taps, symmetrical about the middle one.</param>
    private protected CurveStage(double[]? midTaps, double[]? sideTaps, FilterPhase phase)
    {
        var taps = Math.Max(midTaps?.Length ?? 0, sideTaps?.Length ?? 0);
        var transforming = LongFilter.LatencyFor(taps);
        var turning = phase == FilterPhase.Linear ? (taps - 1) / 2 : 0;
        LatencyFrames = transforming + turning;
        SettlingFrames = taps;
        (_mid, _midLine) = Role(midTaps, taps, phase);
        (_side, _sideLine) = Role(sideTaps, taps, phase);
    }

    /// <inheritdoc/>
    public int LatencyFrames { get; }

    /// <inheritdoc/>
    public long SettlingFrames { get; }

    /// <inheritdoc/>
    public void Begin(long firstFrame)
    {
        _mid?.Begin(firstFrame);
        _side?.Begin(firstFrame);
        _midLine.Reset();
        _sideLine.Reset();
    }

    /// <inheritdoc/>
    public void Process(Span<double> mid, Span<double> side)
    {
        SettingsRules.SameLength(mid, side);
        _midLine.Process(mid);
        _mid?.Process(mid);
        _sideLine.Process(side);
        _side?.Process(side);
    }

    private (LongFilter? Filter, DelayLine Line) Role(double[]? taps, int longest, FilterPhase phase)
    {
        if (taps is null)
            return (null, new(LatencyFrames));
        // Filters of one stage come out together: the shorter gets noughts, on both sides where its middle counts.
        var before = phase == FilterPhase.Linear ? (longest - taps.Length) / 2 : 0;
        var padded = new double[longest];
        taps.CopyTo(padded, before);
        return (new(padded), new(0));
    }
}
