using System.Text;

namespace Athwart.Figures;

/// <summary>Correlation of left and right over time, with a zero line and the zone where a mono listener loses sound.</summary>
public static class CorrelationFigure
{
    private const double Top = 24;
    private const double Height = 104;

    /// <summary>Draws the trace; a gap where left or right is silent.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="seconds">Length of the time axis.</param>
    /// <param name="correlation">A value a column, −1 to 1; NaN for none.</param>
    /// <param name="firstSeconds">What the first moment is called: where a stretch begins in its take.</param>
    /// <returns>An svg element.</returns>
    public static string Draw(FigureLabel label, double seconds, IReadOnlyList<float> correlation, double firstSeconds = 0)
    {
        var scale = new TimeScale(seconds, firstSeconds);
        var canvas = new SvgCanvas(TimeScale.Width, Top + Height + 24, label);
        canvas.Text("caption", TimeScale.Left, Top - 8, "start", "Correlation of left and right");
        canvas.Box("riskzone", TimeScale.Left, Y(0), TimeScale.Span, Height / 2);
        canvas.Box("plate", TimeScale.Left, Top, TimeScale.Span, Height);
        scale.Grid(canvas, Top, Top + Height);
        foreach (var (value, text) in (ReadOnlySpan<(double, string)>)[(1, "+1"), (0.5, "+0.5"), (0, "0"), (-0.5, "−0.5"), (-1, "−1")])
        {
            canvas.Line(value == 0 ? "axis" : "grid fine", TimeScale.Left, Y(value), TimeScale.Right, Y(value));
            canvas.Text("tick", TimeScale.Left - 8, Y(value) + 4.5, "end", text);
        }

        canvas.Text("risk", TimeScale.Right, Top - 8, "end", "tinted, below 0: mono risk, more is lost in mono than stays");
        canvas.Path("trace", Trace(correlation));
        scale.Draw(canvas, Top + Height);
        return canvas.Close();
    }

    private static double Y(double correlation) => Top + ((1 - correlation) * Height / 2);

    private static StringBuilder Trace(IReadOnlyList<float> correlation)
    {
        var path = new StringBuilder();
        var pen = 'M';
        for (var c = 0; c < correlation.Count; c++)
        {
            if (float.IsNaN(correlation[c]))
            {
                pen = 'M';
                continue;
            }

            var x = TimeScale.Left + ((c + 0.5) / correlation.Count * TimeScale.Span);
            path.Append(pen).Append(Markup.Number(Math.Round(x, 1))).Append(' ').Append(Markup.Number(Math.Round(Y(correlation[c]), 1)));
            pen = 'L';
        }

        return path;
    }
}
