namespace Athwart.Figures.Rigs;

/// <summary>Samples of lines with their names in a row; who sees no colours tells them by their dashes.</summary>
internal static class Legend
{
    private const double Sample = 34;

    public static void Draw(SvgCanvas canvas, double x, double y, double step, IEnumerable<(string Class, string Name)> entries)
    {
        foreach (var (@class, name) in entries)
        {
            canvas.Line(@class, x, y - 4, x + Sample, y - 4);
            canvas.Text("tick", x + Sample + 8, y, "start", name);
            x += step;
        }
    }
}
