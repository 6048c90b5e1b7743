namespace Athwart.Figures.Rigs;

/// <summary>What turning the side level does: coverage at two thresholds, and the correlation in a diffuse field.</summary>
public static class SideLevelFigure
{
    private const double Width = 760;
    private const double Left = 62;
    private const double Right = 690;
    private const double Top = 44;
    private const double Bottom = 296;
    private const double Widest = 360;

    /// <summary>Draws the picture from −12 to +12 dB.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="coverage15">Coverage in degrees at 15 dB by side level; null where never reached.</param>
    /// <param name="coverage18">The same at 18 dB.</param>
    /// <param name="correlation">Correlation of left and right in a diffuse field by side level.</param>
    /// <param name="chosen">The chosen side level in dB; outside the picture it is not drawn.</param>
    public static string Draw(FigureLabel label, Func<double, double?> coverage15, Func<double, double?> coverage18, Func<double, double?> correlation, double chosen)
    {
        ArgumentNullException.ThrowIfNull(coverage15);
        ArgumentNullException.ThrowIfNull(coverage18);
        ArgumentNullException.ThrowIfNull(correlation);
        var canvas = new SvgCanvas(Width, 362, label);
        Grid(canvas);
        var narrow = Curve(canvas, "curve mid", level => coverage15(level) is { } c ? Degrees(c) : null);
        var wide = Curve(canvas, "curve side", level => coverage18(level) is { } c ? Degrees(c) : null);
        var room = Curve(canvas, "curve right", level => correlation(level) is { } r ? Correlation(r) : null);
        if (chosen is >= -12 and <= 12)
        {
            canvas.Line("coverage-edge", X(chosen), Top, X(chosen), Bottom);
            canvas.Text("caption halo", X(chosen), Top - 5, chosen < -10 ? "start" : chosen > 10 ? "end" : "middle", FormattableString.Invariant($"{chosen:+0.0;−0.0;0.0} dB"));
        }

        (string, string)[] names =
        [
            ("curve mid", narrow ? "coverage at 15 dB" : "15 dB is never reached"),
            ("curve side", wide ? "coverage at 18 dB" : "18 dB is never reached"),
            ("curve right", room ? "correlation (right scale)" : "correlation not known"),
        ];
        Legend.Draw(canvas, Left, 348, Width, names);
        return canvas.Close();
    }

    private static void Grid(SvgCanvas canvas)
    {
        for (var level = -12; level <= 12; level += 3)
        {
            canvas.Line(level == 0 ? "axis" : "grid fine", X(level), Top, X(level), Bottom);
            canvas.Text("tick", X(level), Bottom + 18, "middle", FormattableString.Invariant($"{level:+0;−0;0}"));
        }

        for (var degrees = 0; degrees <= 360; degrees += 60)
        {
            canvas.Line("grid fine", Left, Degrees(degrees), Right, Degrees(degrees));
            canvas.Text("tick", Left - 8, Degrees(degrees) + 4, "end", FormattableString.Invariant($"{degrees}°"));
        }

        foreach (var correlation in (double[])[-1, -0.5, 0, 0.5, 1])
            canvas.Text("tick", Right + 8, Correlation(correlation) + 4, "start", FormattableString.Invariant($"{correlation:+0.0;−0.0;0.0}"));
        canvas.Text("caption", Left, 18, "start", "Coverage");
        canvas.Text("caption", Right, 18, "end", "Diffuse correlation");
        canvas.Text("tick", (Left + Right) / 2, Bottom + 34, "middle", "side level in dB");
    }

    /// <summary>Whether there was anything to draw.</summary>
    private static bool Curve(SvgCanvas canvas, string @class, Func<double, double?> y)
    {
        var curve = new Curves();
        var any = false;
        for (var level = -12.0; level <= 12.001; level += 0.1)
        {
            if (y(level) is >= Top - 0.5 and <= Bottom + 0.5 and var value)
                curve.To(X(level), value);
            else
                curve.Break();
            any |= curve.IsOpen;
        }

        curve.DrawOn(canvas, @class);
        return any;
    }

    private static double X(double level) => Left + ((level + 12) / 24 * (Right - Left));

    private static double Degrees(double coverage) => Bottom - (coverage / Widest * (Bottom - Top));

    private static double Correlation(double value) => Bottom - ((value + 1) / 2 * (Bottom - Top));
}
