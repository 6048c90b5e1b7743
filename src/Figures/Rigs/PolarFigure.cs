namespace Athwart.Figures.Rigs;

/// <summary>One curve of a <see cref="PolarFigure"/>.</summary>
/// <param name="Name">Its name in the legend.</param>
/// <param name="Class">mid, side, left or right: how the line is drawn.</param>
/// <param name="Gain">The signed amplitude at an azimuth in degrees, positive to the left; what is not finite breaks the line.</param>
public sealed record PolarCurve(string Name, string Class, Func<double, double> Gain);

/// <summary>How microphones and decoded channels hear by direction: 0° upwards, left on the left, decibels below the strongest.</summary>
public static class PolarFigure
{
    private const double Width = 460;
    private const double CentreX = 230;
    private const double CentreY = 214;
    private const double Radius = 176;
    private const double Range = 25;

    /// <summary>Draws the picture; lobes of opposite polarity are thin and carry a minus.</summary>
    public static string Draw(FigureLabel label, IReadOnlyList<PolarCurve> curves)
    {
        ArgumentNullException.ThrowIfNull(curves);
        var canvas = new SvgCanvas(Width, 470 + Legend.Extra(Width - 36, [.. curves.Select(c => c.Name)]), label);
        var places = new LabelPlaces();
        Grid(canvas, places);
        var strongest = curves.SelectMany(c => Enumerable.Range(-180, 361).Select(a => Math.Abs(c.Gain(a)))).Where(double.IsFinite).Append(0).Max();
        foreach (var curve in curves)
            Draw(canvas, curve, strongest > 0 ? strongest : 1, places);
        // After the curves, which would run through the numbers.
        foreach (var decibels in (int[])[-5, -10, -15, -20])
            canvas.Text("tick halo", CentreX + 3, CentreY + RadiusOf(decibels) - 3, "start", Markup.Readable(decibels, 0));
        Legend.Draw(canvas, 30, 452, Width - 6, [.. curves.Select(c => ("curve " + c.Class, c.Name))]);
        return canvas.Close();
    }

    private static void Grid(SvgCanvas canvas, LabelPlaces places)
    {
        for (var azimuth = 0; azimuth < 180; azimuth += 30)
        {
            var (x, y) = At(azimuth, 1);
            canvas.Line("grid fine", x, y, (2 * CentreX) - x, (2 * CentreY) - y);
        }

        for (var decibels = 0; decibels >= -20; decibels -= 5)
        {
            var radius = RadiusOf(decibels);
            canvas.Add($"<circle class=\"{(decibels == 0 ? "ring edge-ring" : "ring")}\" cx=\"{SvgCanvas.N(CentreX)}\" cy=\"{SvgCanvas.N(CentreY)}\" r=\"{SvgCanvas.N(radius)}\"/>\n");
            if (decibels < 0)
                places.Take(CentreX + 3, CentreY + radius - 3, "start", LabelPlaces.WidthOf(Markup.Readable(decibels, 0)));
        }

        foreach (var azimuth in (int[])[0, 30, 60, 90, 120, 150, 180, -30, -60, -90, -120, -150])
        {
            var (x, y) = At(azimuth, 1.115);
            places.Fixed(canvas, "tick", x, y + 4, "middle", FormattableString.Invariant($"{Math.Abs(azimuth)}°"));
        }

        canvas.Text("caption", 14, 24, "start", "Left");
        canvas.Text("caption", Width - 14, 24, "end", "Right");
        canvas.Text("tick", 14, 428, "start", "dB below the strongest");
    }

    private static void Draw(SvgCanvas canvas, PolarCurve curve, double strongest, LabelPlaces places)
    {
        Curves upright = new(), opposed = new();
        var (deepest, where) = (0.0, 0);
        for (var azimuth = -180; azimuth <= 180; azimuth++)
        {
            var gain = curve.Gain(azimuth) / strongest;
            if (!double.IsFinite(gain))
            {
                upright.Break();
                opposed.Break();
                continue;
            }

            var (x, y) = At(azimuth, Math.Max(0, 1 + (20 * Math.Log10(Math.Abs(gain)) / Range)));
            (gain < 0 ? opposed : upright).To(x, y);
            (gain < 0 ? upright : opposed).Break();
            if (gain < deepest)
                (deepest, where) = (gain, azimuth);
        }

        upright.DrawOn(canvas, "curve " + curve.Class);
        opposed.DrawOn(canvas, $"curve {curve.Class} opposed");
        if (deepest < -Math.Pow(10, -20 / 20.0))
        {
            // Inside the lobe; where another sign or a number is, a little further round.
            var radius = Math.Max(0.1, 1 + (20 * Math.Log10(-deepest) / Range) - 0.07);
            var around = ((int[])[0, 6, -6, 12, -12, 18, -18, 24, -24]).Select(turn => At(where + turn, radius));
            places.Text(canvas, $"sign of{curve.Class} halo", around.Select(p => (p.X, p.Y + 5)), "middle", "−");
        }
    }

    private static double RadiusOf(double decibels) => Radius * (1 + (decibels / Range));

    private static (double X, double Y) At(double azimuth, double radius)
    {
        var (sin, cos) = Math.SinCos(azimuth * Math.PI / 180);
        return (CentreX - (Radius * radius * sin), CentreY - (Radius * radius * cos));
    }
}
