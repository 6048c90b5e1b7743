using Athwart.Figures.Rigs;

namespace Athwart.Figures.Plots;

/// <summary>One quantity against another: lines, points with their uncertainty, bars, and what is marked among them.</summary>
public static class PlotFigure
{
    private const double Width = 880;
    private const double Left = 74;
    private const double Right = 852;
    private const double Top = 34;
    private const double Height = 236;
    private const double Bottom = Top + Height;
    private const double LegendTop = Bottom + 62;

    /// <summary>Draws the plot; what lies outside its axes is drawn at their edge.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="plot">What it shows.</param>
    /// <returns>An svg element.</returns>
    public static string Draw(FigureLabel label, Plot plot)
    {
        ArgumentNullException.ThrowIfNull(plot);
        var names = Names(plot);
        var canvas = new SvgCanvas(Width, names.Count == 0 ? LegendTop - 16 : LegendTop + 8, label);
        var places = new LabelPlaces();
        canvas.Text("caption", Left, Top - 14, "start", plot.Title);
        if (plot.Aside.Length > 0)
            canvas.Text("tick", Right, Top - 14, "end", plot.Aside);
        foreach (var band in plot.Bands)
            Band(canvas, plot, band);
        Axes(canvas, plot);
        foreach (var bars in plot.Bars)
            Bars(canvas, plot, bars);
        foreach (var guide in plot.Guides)
            canvas.Line("guide", guide.IsVertical ? X(plot, guide.At) : Left, guide.IsVertical ? Top : Y(plot, guide.At), guide.IsVertical ? X(plot, guide.At) : Right, guide.IsVertical ? Bottom : Y(plot, guide.At));
        foreach (var curve in plot.Curves)
            Curve(canvas, plot, curve);
        foreach (var dots in plot.Dots)
            Dots(canvas, plot, dots, places);
        // Words last: no line runs through them.
        Words(canvas, plot, places);
        PlotLegend.Draw(canvas, Left, LegendTop, Right, names);
        return canvas.Close();
    }

    private static List<(string Class, string Name, PlotSample Sample)> Names(Plot plot) =>
    [
        .. plot.Curves.Where(c => c.Name.Length > 0).Select(c => ("curve " + c.Class, c.Name, PlotSample.Line)),
        .. plot.Dots.Where(d => d.Name.Length > 0).Select(d => ("spot " + d.Class, d.Name, PlotSample.Dot)),
        .. plot.Bars.Where(b => b.Name.Length > 0).Select(b => ("block " + b.Class, b.Name, PlotSample.Block)),
    ];

    private static void Axes(SvgCanvas canvas, Plot plot)
    {
        foreach (var (at, text) in plot.X.Ticks)
        {
            canvas.Line("grid fine", X(plot, at), Top, X(plot, at), Bottom);
            canvas.Text("tick", X(plot, at), Bottom + 18, "middle", text);
        }

        foreach (var (at, text) in plot.Y.Ticks)
        {
            canvas.Line(at == 0 ? "axis" : "grid fine", Left, Y(plot, at), Right, Y(plot, at));
            canvas.Text("tick", Left - 8, Y(plot, at) + 4.5, "end", text);
        }

        canvas.Box("plate", Left, Top, Right - Left, Height);
        canvas.Text("tick", (Left + Right) / 2, Bottom + 38, "middle", plot.X.Caption);
        canvas.Add($"<text class=\"tick\" transform=\"translate(16 {SvgCanvas.N((Top + Bottom) / 2)}) rotate(-90)\" text-anchor=\"middle\">{Markup.Escape(plot.Y.Caption)}</text>\n");
    }

    private static void Band(SvgCanvas canvas, Plot plot, PlotBand band)
    {
        var (from, to) = (X(plot, band.From), X(plot, band.To));
        canvas.Box("band " + band.Class, from, Top, Math.Max(1.5, to - from), Height);
        canvas.Line("edge " + band.Class, from, Top, from, Bottom);
        if (to - from > 2)
            canvas.Line("edge " + band.Class, to, Top, to, Bottom);
    }

    private static void Curve(SvgCanvas canvas, Plot plot, PlotCurve curve)
    {
        var line = new Curves();
        foreach (var (x, y) in curve.Points)
        {
            if (double.IsFinite(x) && !double.IsNaN(y))
                line.To(X(plot, x), Y(plot, y));
            else
                line.Break();
        }

        line.DrawOn(canvas, "curve " + curve.Class);
    }

    private static void Bars(SvgCanvas canvas, Plot plot, PlotBars bars)
    {
        var ground = Y(plot, Math.Clamp(0, plot.Y.Low, plot.Y.High));
        foreach (var (x, y) in bars.Bars.Where(b => double.IsFinite(b.X) && double.IsFinite(b.Y)))
        {
            var half = Math.Sqrt(bars.Width);
            var (from, to) = plot.X.IsLogarithmic ? (X(plot, x / half), X(plot, x * half)) : (X(plot, x - (bars.Width / 2)), X(plot, x + (bars.Width / 2)));
            var end = Y(plot, y);
            canvas.Box("block " + bars.Class, from + 1, Math.Min(ground, end), Math.Max(1, to - from - 2), Math.Max(0.5, Math.Abs(end - ground)));
        }
    }

    private static void Dots(SvgCanvas canvas, Plot plot, PlotDots dots, LabelPlaces places)
    {
        foreach (var dot in dots.Dots.Where(d => double.IsFinite(d.X) && double.IsFinite(d.Y)))
        {
            var (x, y) = (X(plot, dot.X), Y(plot, dot.Y));
            if (dot.Uncertainty > 0)
                canvas.Line("whisker " + dots.Class, x, Y(plot, dot.Y - dot.Uncertainty), x, Y(plot, dot.Y + dot.Uncertainty));
            canvas.Add($"<circle class=\"spot {dots.Class}{(dot.IsHollow ? " hollow" : "")}\" cx=\"{SvgCanvas.N(x)}\" cy=\"{SvgCanvas.N(y)}\" r=\"4.5\"/>\n");
            places.Take(x, y + 4, "middle", 11);
        }
    }

    private static void Words(SvgCanvas canvas, Plot plot, LabelPlaces places)
    {
        foreach (var guide in plot.Guides.Where(g => g.Label.Length > 0))
        {
            if (guide.IsVertical)
                places.Text(canvas, "tick halo", Beside(X(plot, guide.At), Top + 14, guide.Label), Anchor(X(plot, guide.At), guide.Label), guide.Label);
            else
                places.Text(canvas, "tick halo", [(Right - 6, Y(plot, guide.At) - 5), (Right - 6, Y(plot, guide.At) + 14)], "end", guide.Label);
        }

        foreach (var band in plot.Bands.Where(b => b.Label.Length > 0))
            places.Text(canvas, $"of{band.Class} halo", Beside(X(plot, band.From), Top + 14, band.Label), Anchor(X(plot, band.From), band.Label), band.Label);
        foreach (var dot in plot.Dots.SelectMany(d => d.Dots).Where(d => d.Label.Length > 0 && double.IsFinite(d.Y)))
            places.Text(canvas, "tick halo", [(X(plot, dot.X) + 9, Y(plot, dot.Y) - 6), (X(plot, dot.X) + 9, Y(plot, dot.Y) + 16)], "start", dot.Label);
    }

    private static IEnumerable<(double X, double Y)> Beside(double x, double top, string text) =>
        Enumerable.Range(0, 8).Select(row => (Anchor(x, text) is "start" ? x + 6 : x - 6, top + (row * 16.0)));

    private static string Anchor(double x, string text) => x + 6 + LabelPlaces.WidthOf(text) > Right ? "end" : "start";

    private static double X(Plot plot, double value) => Left + (Math.Clamp(plot.X.Share(value), 0, 1) * (Right - Left));

    private static double Y(Plot plot, double value) => Bottom - (Math.Clamp(plot.Y.Share(value), 0, 1) * Height);
}
