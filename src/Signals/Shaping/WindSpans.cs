using Athwart.Quantities;
using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Shaping;

/// <summary>How far a change is made at each frame: 1 inside the stretches, 0 away from them, a raised cosine before and after.</summary>
internal sealed class WindSpans
{
    private readonly List<FrameRange> _ranges;
    private readonly long _fade;
    private int _next;

    public WindSpans(IEnumerable<FrameRange> ranges, long fadeFrames)
    {
        _fade = fadeFrames;
        _ranges = [];
        foreach (var range in ranges.OrderBy(r => r.From.Value))
        {
            // Where two fades would meet there is no time to go back and forth.
            if (_ranges is [.., var last] && range.From.Value - last.To.Value <= 2 * fadeFrames)
                _ranges[^1] = new(last.From, new(Math.Max(last.To.Value, range.To.Value)));
            else
                _ranges.Add(range);
        }
    }

    public void Begin() => _next = 0;

    /// <summary>The share at a frame; frames come in rising order.</summary>
    public double At(long frame)
    {
        while (_next < _ranges.Count && frame >= _ranges[_next].To.Value + _fade)
            _next++;
        if (_next == _ranges.Count)
            return 0;
        var (before, after) = (_ranges[_next].From.Value - frame, frame - _ranges[_next].To.Value + 1);
        var away = Math.Max(before, after);
        return away <= 0 ? 1 : away >= _fade ? 0 : (1 + FixedTrigonometry.CosPi((double)away / _fade)) / 2;
    }
}
