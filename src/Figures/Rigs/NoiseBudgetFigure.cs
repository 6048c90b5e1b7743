namespace Athwart.Figures.Rigs;

/// <summary>One bar of a <see cref="NoiseBudgetFigure"/>.</summary>
/// <param name="Name">What makes the noise.</param>
/// <param name="DecibelsA">How much, as sound in dBA; null and what is beyond ±300 dB are not known, −∞ none.</param>
/// <param name="Class">mid, side, or total.</param>
public sealed record NoiseBar(string Name, double? DecibelsA, string Class);

/// <summary>What the noise of a decode is made of, against the quietest wanted sound.</summary>
public static class NoiseBudgetFigure
{
    private const double Width = 620;
    private const double Left = 176;
    private const double Right = 540;
    private const double Step = 30;
    private const double Top = 44;
    private const double Plausible = 300;

    /// <summary>Draws a bar a row.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="bars">The rows, top to bottom.</param>
    /// <param name="quietest">The quietest wanted sound in dB SPL; null draws no line.</param>
    public static string Draw(FigureLabel label, IReadOnlyList<NoiseBar> bars, double? quietest)
    {
        ArgumentNullException.ThrowIfNull(bars);
        var bottom = Top + (Math.Max(1, bars.Count) * Step);
        var canvas = new SvgCanvas(Width, bottom + 44, label);
        var levels = bars.Select(b => b.DecibelsA).Append(quietest).OfType<double>().Where(IsPlausible).ToList();
        var high = levels.Count == 0 ? 30 : (Math.Ceiling(levels.Max() / 10) * 10) + (levels.Max() % 10 == 0 ? 10 : 0);
        var low = levels.Count == 0 ? 0 : Math.Min(0, Math.Floor(levels.Min() / 10) * 10);
        double X(double level) => Left + ((Math.Clamp(level, low, high) - low) / (high - low) * (Right - Left));
        var step = (high - low) switch { > 160 => 50, > 80 => 20, _ => 10 };
        low = Math.Floor(low / step) * step;
        for (var level = low; level <= high + 0.01; level += step)
        {
            canvas.Line("grid fine", X(level), Top - 6, X(level), bottom);
            canvas.Text("tick", X(level), bottom + 18, "middle", Markup.Readable(level, 0));
        }

        for (var row = 0; row < bars.Count; row++)
        {
            if (bars[row].DecibelsA is { } level && IsPlausible(level))
                canvas.Box("block " + bars[row].Class, Left, Top + (row * Step) + 3, Math.Max(1, X(level) - Left), 17);
        }

        if (quietest is { } wanted && IsPlausible(wanted))
        {
            canvas.Line("guide", X(wanted), Top - 12, X(wanted), bottom);
            canvas.Text("caption", X(wanted), Top - 20, X(wanted) > 420 ? "end" : "middle", FormattableString.Invariant($"quietest wanted sound {Markup.Readable(wanted, wanted % 1 == 0 ? 0 : 1)} dB"));
        }

        // After the line, which would run through the numbers.
        for (var row = 0; row < bars.Count; row++)
            Words(canvas, bars[row], Top + (row * Step), X);
        canvas.Text("tick", (Left + Right) / 2, bottom + 36, "middle", "dBA, as sound in front of the mid");
        return canvas.Close();
    }

    private static bool IsPlausible(double level) => Math.Abs(level) <= Plausible;

    private static void Words(SvgCanvas canvas, NoiseBar bar, double y, Func<double, double> x)
    {
        canvas.Text(string.Equals(bar.Class, "total", StringComparison.Ordinal) ? "caption" : "tick", Left - 10, y + 15, "end", LabelPlaces.Fit(bar.Name, Left - 14));
        if (bar.DecibelsA is not { } level || !(IsPlausible(level) || double.IsNegativeInfinity(level)))
        {
            canvas.Text("tick", Left + 8, y + 15, "start", "not known");
            return;
        }

        canvas.Text("tick halo", x(level) + 8, y + 15, "start", double.IsFinite(level) ? FormattableString.Invariant($"{Markup.Readable(level, 1)}") : "none");
    }
}
