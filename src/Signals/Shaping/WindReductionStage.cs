using Athwart.Signals.Convolution;
using Athwart.Signals.Delays;
using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping;

/// <summary><see cref="WindReduction"/> at work. The mid keeps every bit, and so does the side where there is no wind; latency about three quarters of a second.</summary>
/// <remarks>
/// side + e·(g·mid_low − side_low): low bands by a linear-phase filter |H| = 1/(1 + (f/f₀)⁸), e the crossfade, and g = Σ mid_low·side_low / Σ mid_low²
/// over the second around, in hops of 10 ms laid from frame 0 of the take and joined by straight lines: the gain with which the mid
/// predicts the side best.
/// </remarks>
public sealed class WindReductionStage : IPairStage
{
    private const int Reach = 50; // hops on each side: half a second
    private const int HopsKept = (2 * Reach) + 8;

    private readonly WindSpans _spans;
    private readonly LongFilter _midFilter;
    private readonly LongFilter _sideFilter;
    private readonly DelayLine _midLow;
    private readonly DelayLine _sideLow;
    private readonly DelayLine _midLine;
    private readonly DelayLine _sideLine;
    private readonly int _hop;
    private readonly int _filterLatency;
    private readonly double[] _cross = new double[HopsKept];
    private readonly double[] _power = new double[HopsKept];
    private readonly double[] _lowMid;
    private readonly double[] _lowSide;
    private long _frame; // of what comes in next
    private long _gainHop = long.MinValue;
    private double _gain;
    private double _nextGain;

    /// <summary>Prepares the step at a rate.</summary>
    /// <param name="settings">What to do.</param>
    /// <param name="sampleRateHertz">Sample rate in hertz.</param>
    public WindReductionStage(WindReduction settings, int sampleRateHertz)
    {
        var rate = SettingsRules.Rate(sampleRateHertz);
        _spans = new(settings.Ranges, (long)Math.Round(settings.CrossfadeMilliseconds * rate / 1000));
        var taps = DesignedTaps.Of(settings.CornerHertz, "wind", rate, () => CurveFilter.Design(hertz => LowDecibels(hertz / settings.CornerHertz), rate, FilterPhase.Linear));
        (_midFilter, _sideFilter) = (new(taps), new(taps));
        _filterLatency = _midFilter.LatencyFrames + ((taps.Length - 1) / 2);
        _hop = rate / 100;
        // No more than the sums kept in hand beyond what is looked at.
        (_lowMid, _lowSide) = (new double[2 * _hop], new double[2 * _hop]);
        var ahead = (Reach + 2) * _hop;
        LatencyFrames = _filterLatency + ahead;
        SettlingFrames = taps.Length + ahead;
        (_midLow, _sideLow) = (new(ahead), new(ahead));
        (_midLine, _sideLine) = (new(LatencyFrames), new(LatencyFrames));
    }

    /// <inheritdoc/>
    public int LatencyFrames { get; }

    /// <inheritdoc/>
    public long SettlingFrames { get; }

    /// <inheritdoc/>
    public void Begin(long firstFrame)
    {
        _midFilter.Begin(firstFrame);
        _sideFilter.Begin(firstFrame);
        _midLow.Reset();
        _sideLow.Reset();
        _midLine.Reset();
        _sideLine.Reset();
        Array.Clear(_cross);
        Array.Clear(_power);
        (_frame, _gainHop) = (firstFrame, long.MinValue);
        _spans.Begin();
    }

    /// <inheritdoc/>
    public void Process(Span<double> mid, Span<double> side)
    {
        SettingsRules.SameLength(mid, side);
        while (mid.Length > 0)
        {
            var count = Math.Min(mid.Length, _lowMid.Length);
            Block(mid[..count], side[..count], _lowMid.AsSpan(0, count), _lowSide.AsSpan(0, count));
            mid = mid[count..];
            side = side[count..];
        }
    }

    private static double LowDecibels(double place)
    {
        var fourth = place * place * place * place;
        return -FixedExponential.Decibels(1 + (fourth * fourth));
    }

    private void Block(Span<double> mid, Span<double> side, Span<double> lowMid, Span<double> lowSide)
    {
        mid.CopyTo(lowMid);
        side.CopyTo(lowSide);
        _midFilter.Process(lowMid);
        _sideFilter.Process(lowSide);
        Listen(_frame - _filterLatency, lowMid, lowSide);
        _midLow.Process(lowMid);
        _sideLow.Process(lowSide);
        _midLine.Process(mid);
        _sideLine.Process(side);
        for (var n = 0; n < side.Length; n++)
        {
            var frame = _frame + n - LatencyFrames;
            var share = _spans.At(frame);
            if (share != 0)
                side[n] += share * ((GainAt(frame) * lowMid[n]) - lowSide[n]);
        }

        _frame += mid.Length;
    }

    private static int Slot(long hop) => (int)Floored.Rest(hop, HopsKept);

    // Adds up hop by hop; a hop that begins forgets the one that had its place.
    private void Listen(long frame, ReadOnlySpan<double> mid, ReadOnlySpan<double> side)
    {
        for (var n = 0; n < mid.Length;)
        {
            var hop = Floored.Quotient(frame + n, _hop);
            var (slot, inside) = (Slot(hop), (int)(frame + n - (hop * _hop)));
            var end = Math.Min(mid.Length, n + _hop - inside);
            var (cross, power) = inside == 0 ? (0, 0) : (_cross[slot], _power[slot]);
            for (; n < end; n++)
                (cross, power) = (cross + (mid[n] * side[n]), power + (mid[n] * mid[n]));
            (_cross[slot], _power[slot]) = (cross, power);
        }
    }

    // Between the centres of two hops.
    private double GainAt(long frame)
    {
        var place = (2 * frame) - _hop;
        var hop = Floored.Quotient(place, 2 * _hop);
        if (hop != _gainHop)
            (_gainHop, _gain, _nextGain) = (hop, GainOf(hop), GainOf(hop + 1));
        var share = (place - (hop * 2.0 * _hop)) / (2.0 * _hop);
        return _gain + (share * (_nextGain - _gain));
    }

    private double GainOf(long hop)
    {
        var (cross, power) = (0.0, 0.0);
        for (var h = hop - Reach; h <= hop + Reach; h++)
            (cross, power) = (cross + _cross[Slot(h)], power + _power[Slot(h)]);
        return power > 1e-30 ? cross / power : 0;
    }
}
