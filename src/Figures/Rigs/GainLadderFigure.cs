namespace Athwart.Figures.Rigs;

/// <summary>One channel of a <see cref="GainLadderFigure"/>; levels in dBFS, null is not known.</summary>
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
    private const double Width = 620;
    private const double Top = 64;
    private const double Bottom = 372;
    private const double ColumnWidth = 270;
    private const double Ladder = 46;
    private const double LineHeight = 17;

    /// <summary>Draws a ladder a channel.</summary>
    public static string Draw(FigureLabel label, IReadOnlyList<GainColumn> columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        var canvas = new SvgCanvas(Width, Bottom + 34 + (LineHeight * columns.Select(c => Missing(c).Count).DefaultIfEmpty(0).Max()), label);
        var levels = columns.SelectMany(c => (double?[])[c.Noise, c.Quietest, c.Loudest, c.MicrophoneMaximum]).OfType<double>().Where(double.IsFinite).ToList();
        var high = Math.Max(6, levels.Count == 0 ? 6 : Math.Ceiling(levels.Max() / 10) * 10);
        var low = levels.Count == 0 ? -100 : Math.Floor((levels.Min() - 5) / 10) * 10;
        double Y(double level) => Bottom - ((level - low) / (high - low) * (Bottom - Top));
        for (var level = Math.Ceiling(low / 20) * 20; level <= high; level += 20)
        {
            canvas.Line("grid fine", 52, Y(level), Width - 8, Y(level));
            canvas.Text("tick", 44, Y(level) + 4, "end", Markup.Readable(level, 0));
        }

        canvas.Text("tick", 44, Bottom + 24, "end", "dBFS");
        for (var n = 0; n < columns.Count; n++)
            Column(canvas, columns[n], 70 + (n * ColumnWidth), Y);
        return canvas.Close();
    }

    private static void Column(SvgCanvas canvas, GainColumn column, double x, Func<double, double> y)
    {
        canvas.Text("of" + column.Class, x, 22, "start", column.Name);
        canvas.Text("tick", x, 42, "start", "gain " + column.Gain);
        canvas.Box("plate", x, Top, Ladder, Bottom - Top);
        if (column is { Noise: { } noise, Loudest: { } loudest } && double.IsFinite(noise))
            canvas.Box("block " + column.Class, x, y(Math.Max(noise, loudest)), Ladder, Math.Abs(y(noise) - y(loudest)));
        var rungs = Rungs(column);
        var known = rungs.Where(r => r.Level is { } l && double.IsFinite(l)).ToList();
        var places = LabelColumn.Spread([.. known.Select(r => y(r.Level!.Value) + 4)], 17, Top + 4, Bottom + 8);
        for (var n = 0; n < known.Count; n++)
        {
            var height = y(known[n].Level!.Value);
            canvas.Line(known[n].Level == 0 ? "axis" : "rung", x - 4, height, x + Ladder + 4, height);
            canvas.Line("grid", x + Ladder + 4, height, x + Ladder + 14, places[n] - 4);
            canvas.Text("tick halo", x + Ladder + 18, places[n], "start", FormattableString.Invariant($"{known[n].Text} {Markup.Readable(known[n].Level!.Value, 1)}"));
        }

        var missing = Missing(column);
        for (var n = 0; n < missing.Count; n++)
            canvas.Text("tick", x, Bottom + 26 + (n * LineHeight), "start", $"{missing[n]} not known");
    }

    private static List<string> Missing(GainColumn column) => [.. Rungs(column).Where(r => r.Level is null).Select(r => r.Text)];

    private static List<(double? Level, string Text)> Rungs(GainColumn column) =>
    [
        (column.MicrophoneMaximum, "microphone's maximum"),
        (0, "full scale"),
        (column.Loudest, "loudest peak"),
        (column.Quietest, "quietest sound"),
        (column.Noise, "noise"),
    ];
}
