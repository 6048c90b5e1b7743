using System.Globalization;
using System.Text;

namespace Athwart.Figures.Shaping;

/// <summary>The gain that a step laid on the side over time, in decibels: what a mono guard took away, or how a width moves.</summary>
public static class SideGainFigure
{
    private const double Top = 24;
    private const double Height = 104;
    private const double Grid = 6;
    private const double Deepest = -48;

    /// <summary>Draws the gain.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="seconds">Length of the time axis.</param>
    /// <param name="gains">The lowest gain of each column, an amplitude ratio of 0 or more; what lies below −48 dB is drawn there.</param>
    /// <returns>An svg element.</returns>
    /// <exception cref="ArgumentException">There are no columns.</exception>
    public static string Draw(FigureLabel label, double seconds, ReadOnlySpan<double> gains)
    {
        if (gains.IsEmpty)
            throw new ArgumentException("A gain over time has 1 column or more.", nameof(gains));
        var levels = new double[gains.Length];
        for (var n = 0; n < levels.Length; n++)
            levels[n] = gains[n] > 0 ? Math.Max(Deepest, 20 * Math.Log10(gains[n])) : Deepest;
        // Whole steps of 6 dB, with 0 dB at or near the top.
        double highest = Math.Max(0, Grid * Math.Ceiling((levels.Max() - 1e-9) / Grid)), lowest = Math.Min(-2 * Grid, Grid * Math.Floor((levels.Min() + 1e-9) / Grid));
        double Y(double level) => Top + ((highest - level) / (highest - lowest) * Height);
        var scale = new TimeScale(seconds);
        var canvas = new SvgCanvas(TimeScale.Width, Top + Height + 24, label);
        canvas.Text("caption ofside", TimeScale.Left, Top - 8, "start", "Gain of the side, dB");
        canvas.Text("tick", TimeScale.Right, Top - 8, "end", string.Create(CultureInfo.InvariantCulture, $"lowest {Signed(levels.Min())} dB{(levels.Min() <= Deepest ? " or less" : "")}"));
        canvas.Box("plate", TimeScale.Left, Top, TimeScale.Span, Height);
        scale.Grid(canvas, Top, Top + Height);
        var step = highest - lowest > 30 ? 2 * Grid : Grid;
        for (var level = highest; level >= lowest; level -= step)
        {
            canvas.Line(level == 0 ? "axis" : "grid fine", TimeScale.Left, Y(level), TimeScale.Right, Y(level));
            canvas.Text("tick", TimeScale.Left - 8, Y(level) + 4.5, "end", Signed(level));
        }

        canvas.Path("side rms band", Area(levels, Y));
        canvas.Path("trace", Line(levels, Y));
        scale.Draw(canvas, Top + Height);
        return canvas.Close();
    }

    private static string Signed(double level) => Math.Abs(level) < 0.05 ? "0" : string.Create(CultureInfo.InvariantCulture, $"{(level < 0 ? "−" : "+")}{Math.Abs(level):0.#}");

    private static StringBuilder Line(double[] levels, Func<double, double> y)
    {
        var path = new StringBuilder();
        for (var n = 0; n < levels.Length; n++)
            Point(path, n == 0 ? 'M' : 'L', X(n + 0.5, levels.Length), y(levels[n]));
        return path;
    }

    // Between the gain and 0 dB, from edge to edge.
    private static StringBuilder Area(double[] levels, Func<double, double> y)
    {
        var path = new StringBuilder();
        Point(path, 'M', X(0, levels.Length), y(0));
        Point(path, 'L', X(0, levels.Length), y(levels[0]));
        for (var n = 0; n < levels.Length; n++)
            Point(path, 'L', X(n + 0.5, levels.Length), y(levels[n]));
        Point(path, 'L', X(levels.Length, levels.Length), y(levels[^1]));
        Point(path, 'L', X(levels.Length, levels.Length), y(0));
        return path.Append('Z');
    }

    private static double X(double column, int columns) => TimeScale.Left + (column / columns * TimeScale.Span);

    private static void Point(StringBuilder path, char pen, double x, double y) =>
        path.Append(pen).Append(Markup.Number(Math.Round(x, 1))).Append(' ').Append(Markup.Number(Math.Round(y, 1)));
}
