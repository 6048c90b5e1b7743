using Athwart.Quantities;

namespace Athwart.Metering.Events;

/// <summary>Finds the sounds of a take that stand out of its floor, from one pass over mid and side.</summary>
/// <remarks>
/// <para>Powers every 5 ms in up to five bands of two octaves, of mid, side, left and right. The floor of each is the mean of what does not
/// stand out, within some seconds. A sound is an event where it rises over the floor in some band by the onset setting; it begins and
/// ends where its own power is the floor's, found by the most likely exponential rise or decay.</para>
/// <para>The same answer however the take is cut into blocks. Silence holds no event; samples that are no number count as 0.
/// Memory: 8 kilobytes a second. The thresholds are common practice, no source.</para>
/// </remarks>
public sealed class EventFinder
{
    private const int BlockFrames = 4096;

    private readonly double _sideGain;
    private readonly BandSplitter _splitter;
    private readonly LevelTrack _track;
    private readonly float[] _mid = new float[BlockFrames], _side = new float[BlockFrames];
    private long _frames;

    /// <summary>Makes ready.</summary>
    /// <param name="sampleRateHertz">8000 to 768000.</param>
    /// <param name="sideGain">Amplitude ratio of the side when decoding, for left and right; 0 or more.</param>
    public EventFinder(int sampleRateHertz, double sideGain = 1)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(sampleRateHertz, 8000);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(sampleRateHertz, 768000);
        if (!(sideGain >= 0) || !double.IsFinite(sideGain))
            throw new ArgumentOutOfRangeException(nameof(sideGain), sideGain, "a side gain is 0 or more.");
        _sideGain = sideGain;
        _splitter = new(sampleRateHertz);
        _track = new(sampleRateHertz, _splitter.Widths);
    }

    /// <summary>Samples so far that were no number or absurdly large; they counted as 0.</summary>
    public long NotFinite { get; private set; }

    /// <summary>Listens to the next frames: mid and side, full scale ±1, of one length.</summary>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        side = side[..mid.Length];
        while (mid.Length > 0)
        {
            var left = _track.FrameOf(_track.Steps + 1) - _frames;
            var count = (int)Math.Min(Math.Min(BlockFrames, mid.Length), left);
            NotFinite += BlockIntake.Copy(mid[..count], _mid) + BlockIntake.Copy(side[..count], _side);
            _splitter.Add(_mid.AsSpan(0, count), _side.AsSpan(0, count));
            mid = mid[count..];
            side = side[count..];
            _frames += count;
            if (count == left)
                _track.Add(_splitter, _sideGain);
        }
    }

    /// <summary>The events, in order; they do not overlap.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A setting lies outside its range.</exception>
    public EventScan Complete(EventSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        settings.Checked();
        if (_track.Steps == 0)
            return new([], Decibels.Unity);
        var floors = FloorTrack.Measure(_track);
        var (stretches, finder) = StretchFinder.Find(_track, floors, settings.OnsetDecibels);
        return new([.. EventJoiner.Join(stretches, finder.Heights, settings).Select(stretch => Event(stretch, finder))], OverFloor(floors));
    }

    /// <summary>Levels of mid and side in each band, in decibels, silence at −200: step after step, for <see cref="Signals.Loops.LoopSearch"/>.</summary>
    /// <param name="steps">How many 5 ms make one step, 1 or more; what is left over at the end is dropped.</param>
    /// <returns>The levels and how many belong to a step.</returns>
    public (float[] Levels, int Rows) LevelsBy(int steps)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(steps, 1);
        var rows = MidAndSide(_track.Bands).ToArray();
        var levels = new float[_track.Steps / steps * rows.Length];
        for (var i = 0; i < rows.Length; i++)
        {
            var powers = _track.Powers(rows[i]);
            for (var step = 0; step < powers.Length / steps; step++)
            {
                var sum = 0.0;
                foreach (var power in powers.AsSpan(step * steps, steps))
                    sum += power;
                levels[(step * rows.Length) + i] = sum > 0 ? (float)Math.Max(LevelTrack.Silence, 10 * Math.Log10(sum / steps)) : (float)LevelTrack.Silence;
            }
        }

        return (levels, rows.Length);
    }

    private static IEnumerable<int> MidAndSide(int bands) =>
        Enumerable.Range(0, bands).SelectMany(band => new[] { band * LevelTrack.Signals, (band * LevelTrack.Signals) + 1 });

    // The lowest band is left out: what rumbles there is seldom the sound that was meant.
    private Decibels OverFloor(FloorTrack floors)
    {
        var (all, floor) = (0.0, 0.0);
        foreach (var row in MidAndSide(Math.Max(1, _track.Bands - 1)))
        {
            var powers = _track.Powers(row);
            for (var step = 0; step < powers.Length; step++)
            {
                all += powers[step];
                floor += floors.Power(row, step);
            }
        }

        return all > 0 ? new(10 * Math.Log10(all / floor)) : Decibels.Unity;
    }

    private FoundEvent Event(Stretch stretch, StretchFinder finder)
    {
        var (from, to) = ((int)stretch.From, Math.Min(_track.Steps, (int)Math.Ceiling(stretch.To)));
        var peak = from;
        for (var step = from; step < to; step++)
            peak = finder.Heights[step] > finder.Heights[peak] ? step : peak;
        // The last step of a take may be cut short; a sound that goes on to the end goes to its last frame.
        var end = stretch.To >= _track.Steps ? _frames : _track.FrameOf(stretch.To);
        return new()
        {
            Range = FrameRange.FromFrames(_track.FrameOf(stretch.From), end),
            PeakFrame = _track.FrameOf(peak + 0.5),
            Height = new Decibels(10 * Math.Log10(finder.Heights[peak])),
            Role = (finder.Highest[peak] % LevelTrack.Signals) switch { 0 => ChannelRole.Mid, 1 => ChannelRole.Side, 2 => ChannelRole.Left, _ => ChannelRole.Right },
        };
    }
}
