using Athwart.Figures.Rigs;

namespace Athwart.Figures.Plots;

/// <summary>What a series looks like in the legend.</summary>
internal enum PlotSample
{
    Line = 0,
    Dot,
    Block,
}

/// <summary>The names of a plot's series in one row, each behind a sample of how it is drawn.</summary>
internal static class PlotLegend
{
    private const double Sample = 34;
    private const double Gap = 26;

    public static void Draw(SvgCanvas canvas, double left, double y, double right, IReadOnlyList<(string Class, string Name, PlotSample Sample)> entries)
    {
        var x = left;
        var room = (right - left) / Math.Max(1, entries.Count);
        foreach (var (@class, name, sample) in entries)
        {
            var text = LabelPlaces.Fit(name, Math.Max(room, right - x) - Sample - 8);
            switch (sample)
            {
                case PlotSample.Line:
                    canvas.Line(@class, x, y - 4, x + Sample, y - 4);
                    break;
                case PlotSample.Dot:
                    canvas.Add($"<circle class=\"{@class}\" cx=\"{SvgCanvas.N(x + (Sample / 2))}\" cy=\"{SvgCanvas.N(y - 4)}\" r=\"4.5\"/>\n");
                    break;
                default:
                    canvas.Box(@class, x + 8, y - 11, 18, 13);
                    break;
            }

            canvas.Text("tick", x + Sample + 8, y, "start", text);
            x += Sample + 8 + LabelPlaces.WidthOf(text) + Gap;
        }
    }
}
