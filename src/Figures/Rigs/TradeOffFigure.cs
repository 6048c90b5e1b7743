namespace Athwart.Figures.Rigs;

/// <summary>One pair of a <see cref="TradeOffFigure"/>.</summary>
/// <param name="Number">Its place.</param>
/// <param name="Cost">What has to be bought, in one currency.</param>
/// <param name="Noise">Noise of left and right in dBA.</param>
/// <param name="IsBest">Whether nobody beats it in everything.</param>
public sealed record TradeOffPoint(int Number, double Cost, double Noise, bool IsBest);

/// <summary>Pairs by cost and noise, the best trade-offs joined.</summary>
public static class TradeOffFigure
{
    private const double Width = 760;
    private const double Left = 62;
    private const double Right = 736;
    private const double Top = 34;
    private const double Bottom = 310;
    // What costs nothing has room for its number beside the axis.
    private const double Inset = 16;
    private const int Numbered = 12;

    /// <summary>Draws the picture; what is not known is left out by the caller and said in the description.</summary>
    public static string Draw(FigureLabel label, IReadOnlyList<TradeOffPoint> points, string currency)
    {
        ArgumentNullException.ThrowIfNull(points);
        points = [.. points.Where(p => double.IsFinite(p.Cost) && double.IsFinite(p.Noise))];
        var canvas = new SvgCanvas(Width, 362, label);
        if (points.Count == 0)
        {
            canvas.Text("caption", Width / 2, 180, "middle", "no pair whose cost and noise are both known");
            return canvas.Close();
        }

        var (costs, noises) = (Scale.Around(points.Select(p => p.Cost), 0, 1), Scale.Around(points.Select(p => p.Noise), null, 0.2));
        double X(double cost) => Left + Inset + (costs.Share(cost) * (Right - Left - (2 * Inset)));
        double Y(double noise) => Bottom - (noises.Share(noise) * (Bottom - Top));
        foreach (var cost in costs.Ticks)
        {
            canvas.Line("grid fine", X(cost), Top, X(cost), Bottom);
            canvas.Text("tick", X(cost), Bottom + 18, "middle", Markup.Readable(cost, 0));
        }

        foreach (var noise in noises.Ticks)
        {
            canvas.Line("grid fine", Left, Y(noise), Right, Y(noise));
            canvas.Text("tick", Left - 8, Y(noise) + 4, "end", Markup.Readable(noise, noises.Step < 1 ? 1 : 0));
        }

        canvas.Text("caption", Left, 18, "start", "Noise of left and right, dBA");
        canvas.Text("caption", (Left + Right) / 2, Bottom + 40, "middle", currency.Length > 0 ? "to buy, " + LabelPlaces.Fit(currency, 300) : "to buy");
        Best(canvas, points, X, Y);
        Points(canvas, points, X, Y);
        return canvas.Close();
    }

    private static void Best(SvgCanvas canvas, IReadOnlyList<TradeOffPoint> points, Func<double, double> x, Func<double, double> y)
    {
        var line = new Curves();
        var quietest = double.PositiveInfinity;
        foreach (var point in points.Where(p => p.IsBest).OrderBy(p => p.Cost).ThenBy(p => p.Noise))
        {
            // Best by their coverage alone they may lie above the line of cost and noise.
            if (point.Noise >= quietest)
                continue;
            if (double.IsFinite(quietest))
                line.To(x(point.Cost), y(quietest));
            line.To(x(point.Cost), y(point.Noise));
            quietest = point.Noise;
        }

        line.DrawOn(canvas, "curve side");
    }

    private static void Points(SvgCanvas canvas, IReadOnlyList<TradeOffPoint> points, Func<double, double> x, Func<double, double> y)
    {
        foreach (var point in points.Where(p => !Shown(p)))
            canvas.Add($"<circle class=\"dot\" cx=\"{SvgCanvas.N(x(point.Cost))}\" cy=\"{SvgCanvas.N(y(point.Noise))}\" r=\"3.5\"/>\n");
        var taken = new List<(double X, double Y)>();
        foreach (var point in points.Where(Shown).OrderBy(p => p.Number))
        {
            var (cx, cy) = (x(point.Cost), y(point.Noise));
            // A number that would lie on another is a dot as well; the table has them all.
            if (taken.Exists(t => Math.Abs(t.X - cx) < Math.Max(22, LabelPlaces.WidthOf(FormattableString.Invariant($"{point.Number}")) + 3) && Math.Abs(t.Y - cy) < 20))
            {
                canvas.Add($"<circle class=\"dot\" cx=\"{SvgCanvas.N(cx)}\" cy=\"{SvgCanvas.N(cy)}\" r=\"3.5\"/>\n");
                continue;
            }

            taken.Add((cx, cy));
            var radius = Math.Max(10, (LabelPlaces.WidthOf(FormattableString.Invariant($"{point.Number}")) / 2) + 2);
            canvas.Add($"<circle class=\"{(point.IsBest ? "place best" : "place")}\" cx=\"{SvgCanvas.N(cx)}\" cy=\"{SvgCanvas.N(cy)}\" r=\"{SvgCanvas.N(radius)}\"/>\n");
            canvas.Text(point.IsBest ? "place-number best" : "place-number", cx, cy + 4, "middle", FormattableString.Invariant($"{point.Number}"));
        }
    }

    private static bool Shown(TradeOffPoint point) => point.IsBest || point.Number <= Numbered;
}
