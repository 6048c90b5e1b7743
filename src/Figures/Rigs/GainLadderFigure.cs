namespace Athwart.Figures.Rigs;

/// <summary>One channel of a <see cref="GainLadderFigure"/>; levels in dBFS, null and what is beyond ±300 dB are not known.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Gain">Its gain in words, such as '38 dB'.</param>
/// <param name="Class">mid or side.</param>
/// <param name="Noise">Noise of microphone and input.</param>
/// <param name="Quietest">The quietest wanted sound.</param>
/// <param name="Loudest">The loudest peak.</param>
/// <param name="MicrophoneMaximum">The peak of the loudest sine the microphone takes.</param>
public sealed record GainColumn(string Name, string Gain, string Class, double? Noise, double? Quietest, double? Loudest, double? MicrophoneMaximum);

/// <summary>From the noise to full scale in each channel: what the gain leaves above and below.</summary>
public static class GainLadderFigure
{
    private const double Top = 64;
    private const double Bottom = 372;
    private const double First = 66;
    private const double ColumnWidth = 284;
    private const double Ladder = 46;
    private const double Plausible = 300;

    /// <summary>Draws a ladder a channel.</summary>
    public static string Draw(FigureLabel label, IReadOnlyList<GainColumn> columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        var width = First + 6 + (Math.Max(2, columns.Count) * ColumnWidth);
        var canvas = new SvgCanvas(width, 404, label);
        var levels = columns.SelectMany(c => (double?[])[c.Noise, c.Quietest, c.Loudest, c.MicrophoneMaximum]).Select(Known).OfType<double>().ToList();
        var high = Math.Max(6, levels.Count == 0 ? 6 : Math.Ceiling(levels.Max() / 10) * 10);
        var low = levels.Count == 0 ? -100 : Math.Min(-20, Math.Floor((levels.Min() - 5) / 10) * 10);
        double Y(double level) => Bottom - ((level - low) / (high - low) * (Bottom - Top));
        for (var level = Math.Ceiling(low / 20) * 20; level <= high; level += 20)
        {
            canvas.Line("grid fine", 52, Y(level), width - 8, Y(level));
            canvas.Text("tick", 44, Y(level) + 4, "end", Markup.Readable(level, 0));
        }

        canvas.Text("tick", 44, Bottom + 24, "end", "dBFS");
        for (var n = 0; n < columns.Count; n++)
            Column(canvas, columns[n], First + (n * ColumnWidth), Y);
        return canvas.Close();
    }

    private static double? Known(double? level) => level is >= -Plausible and <= Plausible ? level : null;

    private static void Column(SvgCanvas canvas, GainColumn column, double x, Func<double, double> y)
    {
        canvas.Text("of" + column.Class, x, 22, "start", LabelPlaces.Fit(column.Name, ColumnWidth - 12));
        canvas.Text("tick", x, 42, "start", LabelPlaces.Fit("gain " + column.Gain, ColumnWidth - 12));
        canvas.Box("plate", x, Top, Ladder, Bottom - Top);
        if ((Known(column.Noise), Known(column.Loudest)) is ({ } noise, { } loudest))
            canvas.Box("block " + column.Class, x, y(Math.Max(noise, loudest)), Ladder, Math.Abs(y(noise) - y(loudest)));
        Rungs(canvas, x, y,
        [
            (column.MicrophoneMaximum, "microphone's maximum"),
            (0, "full scale"),
            (column.Loudest, "loudest peak"),
            (column.Quietest, "quietest sound"),
            (column.Noise, "noise"),
        ]);
    }

    private static void Rungs(SvgCanvas canvas, double x, Func<double, double> y, IReadOnlyList<(double? Level, string Text)> rungs)
    {
        // What is not known stands below what is, without a line to a height.
        var places = LabelColumn.Spread([.. rungs.Select(r => Known(r.Level) is { } l ? y(l) + 4 : Bottom + 8)], 17, Top + 4, Bottom + 8);
        for (var n = 0; n < rungs.Count; n++)
        {
            var (level, text) = rungs[n];
            if (Known(level) is not { } known)
            {
                canvas.Text("tick halo", x + Ladder + 18, places[n], "start", text + " not known");
                continue;
            }

            canvas.Line(level == 0 ? "axis" : "rung", x - 4, y(known), x + Ladder + 4, y(known));
            canvas.Line("grid", x + Ladder + 4, y(known), x + Ladder + 14, places[n] - 4);
            canvas.Text("tick halo", x + Ladder + 18, places[n], "start", FormattableString.Invariant($"{text} {Markup.Readable(level!.Value, 1)}"));
        }
    }
}
