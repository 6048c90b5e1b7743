namespace Athwart.Figures.Rigs;

/// <summary>Samples of lines with their names in rows; who sees no colours tells them by their dashes.</summary>
internal static class Legend
{
    private const double Sample = 34;
    private const double Row = 20;

    /// <summary>Draws as many to a row as have room from x to <paramref name="right"/>, each at a multiple of a step.</summary>
    public static void Draw(SvgCanvas canvas, double x, double y, double right, IReadOnlyList<(string Class, string Name)> entries)
    {
        var (step, perRow) = Grid(right - x, entries.Select(e => e.Name));
        for (var n = 0; n < entries.Count; n++)
        {
            var (left, top) = (x + (n % perRow * step), y + (n / perRow * Row));
            canvas.Line(entries[n].Class, left, top - 4, left + Sample, top - 4);
            canvas.Text("tick", left + Sample + 8, top, "start", LabelPlaces.Fit(entries[n].Name, step - Sample - 16));
        }
    }

    /// <summary>What the rows below the first one need, in px.</summary>
    public static double Extra(double room, IReadOnlyList<string> names)
        => names.Count == 0 ? 0 : ((names.Count - 1) / Grid(room, names).PerRow) * Row;

    private static (double Step, int PerRow) Grid(double room, IEnumerable<string> names)
    {
        var all = names.ToList();
        var widest = all.Select(LabelPlaces.WidthOf).Append(0).Max() + Sample + 17;
        var perRow = Math.Clamp((int)(room / widest), 1, Math.Max(1, all.Count));
        return (room / perRow, perRow);
    }
}
