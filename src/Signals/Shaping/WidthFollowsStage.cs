using Athwart.Signals.Delays;
using Athwart.Signals.FixedMath;
using Athwart.Signals.Shaping.Control;

namespace Athwart.Signals.Shaping;

/// <summary><see cref="WidthFollows"/> at work: the mid keeps its bits.</summary>
/// <remarks>
/// The mid is measured in cells of about 2 ms on a fixed grid; the gain of each cell is reached in a straight line over the next one, and the
/// sound comes out two cells late, so that gain and sound belong together. Silence has no brightness and no pitch:
/// the gain falls to that of the low end, so that what lay long before has no say.
/// </remarks>
public sealed class WidthFollowsStage : IPairStage
{
    private const double FadedConstants = 16.2;
    private readonly WidthFollows _settings;
    private readonly int _cell;
    private readonly CellMeasure _measure;
    private readonly double _riseStep;
    private readonly double _fallStep;
    private readonly double _low;
    private readonly double _span;
    private readonly DelayLine _midLine;
    private readonly DelayLine _sideLine;
    private long _frame;
    private int _filled;
    private double _followed;
    private double _gain;
    private double _next;

    /// <summary>A stage for one rate.</summary>
    public WidthFollowsStage(WidthFollows settings, int sampleRateHertz)
    {
        ArgumentNullException.ThrowIfNull(settings);
        _settings = settings;
        _cell = SettingsRules.Rate(sampleRateHertz) / 500;
        _measure = new(settings.Quantity, sampleRateHertz, _cell);
        _riseStep = 1 - FixedExponential.Exp(-_cell / (settings.RiseSeconds * sampleRateHertz));
        _fallStep = 1 - FixedExponential.Exp(-_cell / (settings.FallSeconds * sampleRateHertz));
        _low = Scale(settings.Low);
        _span = Scale(settings.High) - _low;
        _midLine = new(LatencyFrames);
        _sideLine = new(LatencyFrames);
        SettlingFrames = (2 * LatencyFrames) + _measure.SettlingFrames + (long)Math.Ceiling(FadedConstants * Math.Max(settings.RiseSeconds, settings.FallSeconds) * sampleRateHertz);
        Begin(0);
    }

    /// <summary>Where to keep the gain for drawing; null for nowhere.</summary>
    public GainTrace? Trace { get; set; }

    /// <inheritdoc/>
    public int LatencyFrames => 2 * _cell;

    /// <inheritdoc/>
    public long SettlingFrames { get; }

    /// <inheritdoc/>
    public void Begin(long firstFrame)
    {
        _midLine.Reset();
        _sideLine.Reset();
        _measure.Begin();
        _frame = firstFrame;
        _filled = (int)Floored.Rest(firstFrame, _cell);
        _followed = 0;
        _gain = GainOf(0);
        _next = _gain;
    }

    /// <inheritdoc/>
    public void Process(Span<double> mid, Span<double> side)
    {
        SettingsRules.SameLength(mid, side);
        for (var n = 0; n < mid.Length;)
        {
            var count = Math.Min(mid.Length - n, _cell - _filled);
            _measure.Add(mid.Slice(n, count));
            Exchange(mid.Slice(n, count), side.Slice(n, count));
            n += count;
            _frame += count;
            _filled += count;
            if (_filled == _cell)
                Complete();
        }
    }

    private void Exchange(Span<double> mid, Span<double> side)
    {
        _midLine.Process(mid);
        _sideLine.Process(side);
        var slope = (_next - _gain) / _cell;
        for (var n = 0; n < side.Length; n++)
            side[n] *= _gain + (slope * (_filled + n));
    }

    private void Complete()
    {
        Trace?.Note(_frame - _cell - LatencyFrames, _cell, Math.Min(_gain, _next));
        var part = _measure.Complete() is { } value ? Math.Clamp((Scale(value) - _low) / _span, 0, 1) : 0;
        _followed += (part > _followed ? _riseStep : _fallStep) * (part - _followed);
        (_gain, _next) = (_next, GainOf(_followed));
        _filled = 0;
    }

    // Decibels as they are, hertz by octaves (in nepers, which comes to the same).
    private double Scale(double value) => _settings.Quantity == FollowedQuantity.Level ? value : FixedExponential.Log(value);

    private double GainOf(double part) => FixedExponential.AmplitudeRatio(_settings.LowSideDecibels + ((_settings.HighSideDecibels - _settings.LowSideDecibels) * part));
}
