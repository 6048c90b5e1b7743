namespace Athwart.Figures.Rigs;

/// <summary>Left against right by the azimuth of a source, with the thresholds at which it sounds from one side alone.</summary>
public static class LevelDifferenceFigure
{
    private const double Width = 760;
    private const double Left = 62;
    private const double Right = 744;
    private const double Top = 40;
    private const double Bottom = 292;
    private const double Range = 30;

    /// <summary>Draws the picture; left is on the left.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="difference">Left − right in dB at an azimuth in degrees; null where nothing is heard, ±∞ where one side alone hears.</param>
    /// <param name="threshold">The threshold asked for, in dB; beyond the scale of 30 dB it has no lines.</param>
    /// <param name="coverageDegrees">The coverage at it; null, or what no coverage can be, draws no edges.</param>
    public static string Draw(FigureLabel label, Func<double, double?> difference, double threshold, double? coverageDegrees)
    {
        ArgumentNullException.ThrowIfNull(difference);
        if (coverageDegrees is not (> 0 and <= 360))
            coverageDegrees = null;
        var canvas = new SvgCanvas(Width, 340, label);
        foreach (var azimuth in Enumerable.Range(-6, 13).Select(n => n * 30))
        {
            canvas.Line(azimuth == 0 ? "axis" : "grid fine", X(azimuth), Top, X(azimuth), Bottom);
            canvas.Text("tick", X(azimuth), Bottom + 18, "middle", FormattableString.Invariant($"{Math.Abs(azimuth)}°"));
        }

        foreach (var decibels in (double[])[-30, -20, -10, 0, 10, 20, 30])
        {
            canvas.Line(decibels == 0 ? "axis" : "grid fine", Left, Y(decibels), Right, Y(decibels));
            canvas.Text("tick", Left - 8, Y(decibels) + 4, "end", decibels > 0 ? "+" + Markup.Readable(decibels, 0) : Markup.Readable(decibels, 0));
        }

        foreach (var sign in (int[])[1, -1])
        {
            if (Math.Abs(threshold) <= Range)
                canvas.Line("guide", Left, Y(sign * threshold), Right, Y(sign * threshold));
            if (coverageDegrees is { } coverage)
                canvas.Line("coverage-edge", X(sign * coverage / 2), Top, X(sign * coverage / 2), Bottom);
        }

        var curve = new Curves();
        for (var azimuth = -180.0; azimuth <= 180; azimuth += 0.5)
        {
            if (difference(azimuth) is { } value && !double.IsNaN(value))
                curve.To(X(azimuth), Y(Math.Clamp(value, -Range, Range)));
            else
                curve.Break();
        }

        curve.DrawOn(canvas, "curve left");
        Labels(canvas, threshold, coverageDegrees);
        return canvas.Close();
    }

    private static void Labels(SvgCanvas canvas, double threshold, double? coverageDegrees)
    {
        canvas.Text("caption", Left, 24, "start", "Source on the left");
        canvas.Text("caption", Right, 24, "end", "Source on the right");
        // At the far ends, where the curve is low or on the other side of the axis.
        if (Math.Abs(threshold) <= Range)
        {
            canvas.Text("tick halo", Left + 6, Math.Max(Y(threshold) - 5, Top + 12), "start", FormattableString.Invariant($"left {threshold:0.#} dB louder"));
            canvas.Text("tick halo", Right - 6, Math.Min(Y(-threshold) + 15, Bottom - 5), "end", FormattableString.Invariant($"right {threshold:0.#} dB louder"));
        }

        canvas.Text("tick", Left, Bottom + 38, "start", "left − right in dB, by where the source is; behind beyond 90°");
        if (coverageDegrees is { } coverage)
            canvas.Text("caption", (Left + Right) / 2, 24, "middle", FormattableString.Invariant($"coverage {coverage:0}°"));
        else
            canvas.Text("caption", (Left + Right) / 2, 24, "middle", "coverage never reached");
    }

    private static double X(double azimuth) => ((Left + Right) / 2) - (azimuth / 180 * (Right - Left) / 2);

    private static double Y(double decibels) => ((Top + Bottom) / 2) - (decibels / Range * (Bottom - Top) / 2);
}
