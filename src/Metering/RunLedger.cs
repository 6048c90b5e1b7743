using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>Collects runs in bounded memory: neighbours join, and when there are too many stretches the joining distance doubles.</summary>
internal sealed class RunLedger(long joinWithinFrames)
{
    internal const int Capacity = 128;
    private readonly List<Stretch> _stretches = new(4);
    private long _joinWithin = Math.Max(1, joinWithinFrames);
    private long _count;
    private long _frames;
    private long _longest;
    private double _peak;

    /// <summary>Adds a run; runs come in order of their start and do not overlap.</summary>
    public void Add(long from, long to, double peakAmplitude)
    {
        _count++;
        _frames += to - from;
        _longest = Math.Max(_longest, to - from);
        _peak = Math.Max(_peak, peakAmplitude);
        _stretches.Add(new(from, to, 1, to - from, peakAmplitude));
        Join(Math.Max(0, _stretches.Count - 2));
        while (_stretches.Count > Capacity)
        {
            _joinWithin *= 2;
            Join(0);
        }
    }

    /// <summary>Everything so far.</summary>
    public SampleRuns ToRuns() => new()
    {
        Count = _count,
        Frames = _frames,
        LongestFrames = _longest,
        PeakAmplitude = _peak,
        Stretches = _stretches.ConvertAll(s => new RunStretch(FrameRange.FromFrames(s.From, s.To), s.Count, s.Longest, s.Peak)),
    };

    private void Join(int first)
    {
        var kept = first;
        for (var i = first + 1; i < _stretches.Count; i++)
        {
            var (a, b) = (_stretches[kept], _stretches[i]);
            if (b.From - a.To <= _joinWithin)
                _stretches[kept] = new(a.From, b.To, a.Count + b.Count, Math.Max(a.Longest, b.Longest), Math.Max(a.Peak, b.Peak));
            else
                _stretches[++kept] = b;
        }

        if (_stretches.Count > kept + 1)
            _stretches.RemoveRange(kept + 1, _stretches.Count - kept - 1);
    }

    private readonly record struct Stretch(long From, long To, int Count, long Longest, double Peak);
}
