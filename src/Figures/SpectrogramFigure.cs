namespace Athwart.Figures;

/// <summary>Levels over time and log frequency.</summary>
/// <param name="Columns">Columns over time.</param>
/// <param name="Rows">Rows from the lowest frequency (row 0) upwards.</param>
/// <param name="LowestHertz">Lower edge of row 0.</param>
/// <param name="HighestHertz">Upper edge of the last row.</param>
/// <param name="HalfDecibelSteps">Row after row; 255 is 0 dBFS (a full-scale sine), each step half a decibel.</param>
public sealed record SpectrogramGrid(int Columns, int Rows, double LowestHertz, double HighestHertz, byte[] HalfDecibelSteps);

/// <summary>The spectrogram of the mid above that of the side, at one colour scale.</summary>
public static class SpectrogramFigure
{
    /// <summary>Decibels from the strongest level shown down to white.</summary>
    public const double RangeDecibels = 72;

    private const double PanelHeight = 190;
    private const double CaptionHeight = 24;
    private const int ColourCount = 64;

    /// <summary>Draws the two panels.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="seconds">Length of the time axis.</param>
    /// <param name="mid">Of the mid, which is the decoded mono fold.</param>
    /// <param name="side">Of the side.</param>
    /// <param name="firstSeconds">What the first moment is called: where a stretch begins in its take.</param>
    /// <returns>An svg element with the pictures inside.</returns>
    public static string Draw(FigureLabel label, double seconds, SpectrogramGrid mid, SpectrogramGrid side, double firstSeconds = 0)
    {
        var scale = new TimeScale(seconds, firstSeconds);
        var secondTop = CaptionHeight + PanelHeight + CaptionHeight + 6;
        var bottom = secondTop + PanelHeight;
        var canvas = new SvgCanvas(TimeScale.Width, bottom + 24, label);
        var top = TopDecibels(mid, side);
        DrawPanel(canvas, CaptionHeight, "Mid, the mono fold", "mid", mid, top);
        DrawPanel(canvas, secondTop, "Side", "side", side, top);
        DrawLegend(canvas, top);
        scale.Draw(canvas, bottom);
        return canvas.Close();
    }

    /// <summary>The strongest level of both, rounded up to a multiple of 6 dB; never below −42, so that noise floors stay pale.</summary>
    internal static double TopDecibels(SpectrogramGrid mid, SpectrogramGrid side)
    {
        var most = Math.Max(mid.HalfDecibelSteps.DefaultIfEmpty().Max(), side.HalfDecibelSteps.DefaultIfEmpty().Max());
        return Math.Max(-42, 6 * Math.Ceiling((most - 255) / 12.0));
    }

    /// <summary>The picture alone: top row is the highest frequency.</summary>
    internal static byte[] Paint(SpectrogramGrid grid, double topDecibels)
    {
        var pixels = new byte[grid.Columns * grid.Rows];
        for (var y = 0; y < grid.Rows; y++)
        {
            for (var x = 0; x < grid.Columns; x++)
            {
                var level = (grid.HalfDecibelSteps[((grid.Rows - 1 - y) * grid.Columns) + x] - 255) / 2.0;
                var part = 1 + ((level - topDecibels) / RangeDecibels);
                pixels[(y * grid.Columns) + x] = (byte)Math.Clamp(Math.Round(part * (ColourCount - 1)), 0, ColourCount - 1);
            }
        }

        return PortableNetworkGraphics.Write(grid.Columns, grid.Rows, pixels, HeatMap.Colours(ColourCount));
    }

    private static void DrawPanel(SvgCanvas canvas, double top, string name, string role, SpectrogramGrid grid, double topDecibels)
    {
        canvas.Text("of" + role, TimeScale.Left, top - 8, "start", name);
        if (grid.Columns > 0 && grid.Rows > 0)
            canvas.Picture(TimeScale.Left, top, TimeScale.Span, PanelHeight, Paint(grid, topDecibels));
        canvas.Box("plate", TimeScale.Left, top, TimeScale.Span, PanelHeight);
        foreach (var hertz in (ReadOnlySpan<double>)[20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000, 50000, 100000, 200000])
        {
            if (hertz < grid.LowestHertz || hertz > grid.HighestHertz * 0.97)
                continue;
            var y = top + PanelHeight - (Math.Log(hertz / grid.LowestHertz) / Math.Log(grid.HighestHertz / grid.LowestHertz) * PanelHeight);
            canvas.Line("axis", TimeScale.Left - 4, y, TimeScale.Left, y);
            canvas.Text("tick", TimeScale.Left - 8, y + (hertz == 20 ? 0 : 4.5), "end", new Quantities.Hertz(hertz).ToString());
            if (hertz == 20000 && grid.HighestHertz > 40000)
                DrawHearingLimit(canvas, y);
        }
    }

    private static void DrawHearingLimit(SvgCanvas canvas, double y)
    {
        canvas.Line("guide", TimeScale.Left, y, TimeScale.Right, y);
        canvas.Text("tick halo", TimeScale.Right - 8, y - 5, "end", "above hearing");
    }

    private static void DrawLegend(SvgCanvas canvas, double top)
    {
        const double Width = 150;
        var left = TimeScale.Right - Width - 76;
        var steps = new byte[ColourCount];
        for (var i = 0; i < steps.Length; i++)
            steps[i] = (byte)i;
        canvas.Text("tick", left - 8, CaptionHeight - 8, "end", Markup.Readable(top - RangeDecibels, 0));
        canvas.Picture(left, CaptionHeight - 18, Width, 11, PortableNetworkGraphics.Write(ColourCount, 1, steps, HeatMap.Colours(ColourCount)));
        canvas.Box("plate", left, CaptionHeight - 18, Width, 11);
        canvas.Text("tick", TimeScale.Right, CaptionHeight - 8, "end", Markup.Readable(top, 0) + " dBFS");
    }
}
