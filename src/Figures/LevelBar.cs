namespace Athwart.Figures;

/// <summary>A level as a bar, to stand beside its number; hidden from screen readers, which get the number.</summary>
public static class LevelBar
{
    /// <summary>The left end of the bar, in dB below full scale.</summary>
    public const double Lowest = -60;

    private const double Width = 200;
    private const double Height = 10;

    /// <summary>Draws a bar from −60 to 0; a level above 0 fills it in the colour of a fault.</summary>
    /// <param name="level">LUFS, dBTP or dBFS; −∞ and NaN draw the empty track.</param>
    public static string Draw(double level)
    {
        var canvas = new SvgCanvas(Width, Height, "bar");
        canvas.Add($"<rect class=\"track\" x=\"0\" y=\"2\" width=\"200\" height=\"6\" rx=\"3\"/>");
        var part = double.IsNaN(level) ? 0 : Math.Clamp(1 - (level / Lowest), 0, 1);
        if (part > 0)
            canvas.Add($"<rect class=\"{(level > 0 ? "over" : "fill")}\" x=\"0\" y=\"2\" width=\"{Markup.Number(part * Width)}\" height=\"6\" rx=\"3\"/>");
        return canvas.Close();
    }
}
