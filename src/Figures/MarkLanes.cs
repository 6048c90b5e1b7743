using Athwart.Quantities;

namespace Athwart.Figures;

/// <summary>Places the marks of findings above a figure over time so that none covers another.</summary>
internal sealed class MarkLanes
{
    private const double MarkWidth = 26;
    private const double LaneHeight = 26;
    private readonly List<(TimeMark Mark, double X, int Lane)> _placed = [];
    private readonly TimeScale _scale;

    public MarkLanes(IReadOnlyList<TimeMark> marks, TimeScale scale)
    {
        _scale = scale;
        var ends = new List<double>();
        foreach (var mark in marks.OrderBy(m => m.FromSeconds).ThenBy(m => m.Number))
        {
            var middle = (scale.X(mark.FromSeconds) + scale.X(mark.ToSeconds)) / 2;
            var x = Math.Clamp(middle, TimeScale.Left + (MarkWidth / 2), TimeScale.Right - (MarkWidth / 2));
            var from = Math.Min(scale.X(mark.FromSeconds), x - (MarkWidth / 2));
            var lane = ends.FindIndex(end => end <= from);
            if (lane < 0)
            {
                lane = ends.Count;
                ends.Add(0);
            }

            ends[lane] = Math.Max(scale.X(mark.ToSeconds), x + (MarkWidth / 2)) + 2;
            _placed.Add((mark, x, lane));
        }

        Height = ends.Count * LaneHeight;
    }

    /// <summary>Room the marks take above the figure; 0 without marks.</summary>
    public double Height { get; }

    /// <summary>The tinted stretches of one lane, to lie behind it.</summary>
    public void DrawBands(SvgCanvas canvas, ChannelRole lane, double top, double height)
    {
        foreach (var (mark, _, _) in _placed)
        {
            if (mark.Role is ChannelRole.Mid or ChannelRole.Side && mark.Role != lane)
                continue;
            var (kind, from, to) = (FindingMark.Class(mark.Severity), _scale.X(mark.FromSeconds), _scale.X(mark.ToSeconds));
            canvas.Box("band " + kind, from, top, Math.Max(1, to - from), height);
            canvas.Line("edge " + kind, from, top, from, top + height);
            if (to - from > 2)
                canvas.Line("edge " + kind, to, top, to, top + height);
        }
    }

    /// <summary>The marks, on top.</summary>
    public void DrawMarks(SvgCanvas canvas, double top)
    {
        foreach (var (mark, x, lane) in _placed)
        {
            var y = top + (lane * LaneHeight) + (LaneHeight / 2) - 1;
            canvas.Line("span " + FindingMark.Class(mark.Severity), _scale.X(mark.FromSeconds), y, _scale.X(mark.ToSeconds), y);
            FindingMark.Draw(canvas, x, y, mark.Number, mark.Severity);
        }
    }
}
