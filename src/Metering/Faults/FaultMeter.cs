namespace Athwart.Metering.Faults;

/// <summary>Listens to the blocks of a take for faults that need more than levels.</summary>
internal sealed class FaultMeter
{
    private readonly PairHistory _history = new();
    private readonly ClickScan _midClicks, _sideClicks;
    private readonly DropoutScan _midDropouts, _sideDropouts;
    private readonly RepeatScan _repeats = new();
    private readonly LowBand _low;
    private readonly GainCourse _gains;

    public FaultMeter(int sampleRateHertz, SampleScale scale)
    {
        (_midClicks, _sideClicks) = (new(scale, sampleRateHertz), new(scale, sampleRateHertz));
        (_low, _gains) = (new(sampleRateHertz), new(sampleRateHertz));
        (_midDropouts, _sideDropouts) = (new(scale, sampleRateHertz), new(scale, sampleRateHertz));
    }

    /// <summary>Takes the next block of up to 4096 frames.</summary>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side, long firstFrame)
    {
        _history.Add(mid, side);
        _midClicks.Add(mid, firstFrame);
        _sideClicks.Add(side, firstFrame);
        _midClicks.Look(_sideClicks);
        _sideClicks.Look(_midClicks);
        _midDropouts.Scan(_history.Mid, _history.First, _history.Origin);
        _sideDropouts.Scan(_history.Side, _history.First, _history.Origin);
        _repeats.Scan(_history);
        _low.Add(mid, side);
        _gains.Add(mid, side);
    }

    /// <summary>Ends the take.</summary>
    public FaultMeasures Complete(long frames, PairCross? cross)
    {
        cross?.Complete();
        _repeats.Complete(frames);
        _midClicks.End(_sideClicks);
        _sideClicks.End(_midClicks);
        return new()
        {
            MidClicks = _midClicks.Clicks,
            SideClicks = _sideClicks.Clicks,
            MidBreaks = _midClicks.Breaks,
            SideBreaks = _sideClicks.Breaks,
            MidDropouts = _midDropouts.Complete(),
            SideDropouts = _sideDropouts.Complete(),
            Repeats = _repeats.Found,
            Cross = cross,
            Lines = _low.Lines,
            Gains = _gains,
            Low = _low.Low.Frames,
            LowRate = _low.Rate,
            LowFactor = _low.Factor,
        };
    }
}
