using System.Text;
using Athwart.Quantities;

namespace Athwart.Figures;

/// <summary>One role over time, a value a column, full scale ±1.</summary>
/// <param name="Lowest">The most negative sample of each column.</param>
/// <param name="Highest">The most positive sample of each column.</param>
/// <param name="Rms">The root mean square of each column.</param>
public sealed record WaveformTrace(IReadOnlyList<float> Lowest, IReadOnlyList<float> Highest, IReadOnlyList<float> Rms)
{
    internal double Peak => Lowest.Select(v => -(double)v).Concat(Highest.Select(v => (double)v)).Append(0).Max();
}

/// <summary>Mid above side over one time axis, at one scale, so that their sizes compare; findings marked above.</summary>
public static class WaveformFigure
{
    private const double LaneHeight = 92;
    private const double CaptionHeight = 24;

    /// <summary>Draws the two lanes.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="seconds">Length of the time axis.</param>
    /// <param name="mid">The mid.</param>
    /// <param name="side">The side, as many columns.</param>
    /// <param name="marks">Findings with a place in time.</param>
    /// <param name="firstSeconds">What the first moment is called: where a stretch begins in its take.</param>
    /// <returns>An svg element.</returns>
    public static string Draw(FigureLabel label, double seconds, WaveformTrace mid, WaveformTrace side, IReadOnlyList<TimeMark> marks, double firstSeconds = 0)
    {
        var scale = new TimeScale(seconds, firstSeconds);
        var lanes = new MarkLanes(marks, scale);
        var firstTop = lanes.Height + CaptionHeight;
        var secondTop = firstTop + LaneHeight + CaptionHeight + 4;
        var bottom = secondTop + LaneHeight;
        var canvas = new SvgCanvas(TimeScale.Width, bottom + 24, label);
        var edge = LevelRange.EdgeDecibels(Math.Max(mid.Peak, side.Peak));
        lanes.DrawBands(canvas, ChannelRole.Mid, firstTop, LaneHeight);
        lanes.DrawBands(canvas, ChannelRole.Side, secondTop, LaneHeight);
        DrawLane(canvas, scale, firstTop, "Mid", "mid", mid, edge);
        DrawLane(canvas, scale, secondTop, "Side", "side", side, edge);
        scale.Draw(canvas, bottom);
        lanes.DrawMarks(canvas, 0);
        return canvas.Close();
    }

    private static void DrawLane(SvgCanvas canvas, TimeScale scale, double top, string name, string role, WaveformTrace trace, double edge)
    {
        var centre = top + (LaneHeight / 2);
        canvas.Text("of" + role, TimeScale.Left, top - 8, "start", name);
        canvas.Text("tick", TimeScale.Right, top - 8, "end", $"peak {Markup.Readable(20 * Math.Log10(trace.Peak), 1)} dBFS");
        scale.Grid(canvas, top, top + LaneHeight);
        canvas.Box("plate", TimeScale.Left, top, TimeScale.Span, LaneHeight);
        DrawLevels(canvas, centre, edge);
        canvas.Line("grid", TimeScale.Left, centre, TimeScale.Right, centre);
        var unit = LaneHeight / 2 / Math.Pow(10, edge / 20);
        canvas.Path("peak " + role, Outline(trace.Highest, trace.Lowest, centre, unit));
        canvas.Path("rms " + role, Outline(trace.Rms, trace.Rms.Select(v => -v).ToArray(), centre, unit));
    }

    private static void DrawLevels(SvgCanvas canvas, double centre, double edge)
    {
        foreach (var (part, level) in (ReadOnlySpan<(double, double)>)[(1, edge), (0.5011872336272722, edge - 6), (0, double.NegativeInfinity)])
        {
            var away = part * LaneHeight / 2;
            var text = Markup.Readable(level, 0) + (part == 1 ? " dBFS" : "");
            canvas.Text("tick", TimeScale.Left - 8, centre - away + (part == 1 ? 9 : 4.5), "end", text);
            if (part is 0 or 1)
                continue;
            canvas.Line("grid fine", TimeScale.Left, centre - away, TimeScale.Right, centre - away);
            canvas.Line("grid fine", TimeScale.Left, centre + away, TimeScale.Right, centre + away);
        }
    }

    private static StringBuilder Outline(IReadOnlyList<float> above, IReadOnlyList<float> below, double centre, double unit)
    {
        var path = new StringBuilder();
        for (var c = 0; c < above.Count; c++)
            Point(path, c, above.Count, centre - (above[c] * unit));
        for (var c = above.Count - 1; c >= 0; c--)
            Point(path, c, above.Count, centre - (below[c] * unit));
        return path.Append(path.Length > 0 ? "Z" : "");
    }

    private static void Point(StringBuilder path, int column, int columns, double y)
    {
        var x = TimeScale.Left + ((column + 0.5) / columns * TimeScale.Span);
        path.Append(path.Length == 0 ? 'M' : 'L').Append(Markup.Number(Math.Round(x, 1))).Append(' ').Append(Markup.Number(Math.Round(y, 1)));
    }
}

/// <summary>Where the amplitude axis ends.</summary>
internal static class LevelRange
{
    /// <summary>The smallest multiple of 6 dB at or above a peak; 0 for silence, never below −96.</summary>
    public static double EdgeDecibels(double peak)
        => peak > 0 && double.IsFinite(peak) ? Math.Max(-96, 6 * Math.Ceiling(((20 * Math.Log10(peak)) / 6) - 1e-9)) : 0;
}
