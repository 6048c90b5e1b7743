namespace Athwart.Figures;

/// <summary>Where left and right stand against each other: alike upwards, left to the upper left, opposite polarity sideways.</summary>
public static class VectorFigure
{
    private const double Width = 430;
    private const double Left = 77;
    private const double Top = 34;
    private const double Edge = 276;

    /// <summary>Draws the picture.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="size">Cells along one edge; 0 draws empty axes.</param>
    /// <param name="range">Amplitude at the edge.</param>
    /// <param name="density">Row after row from the bottom, 0 for none.</param>
    /// <returns>An svg element with the picture inside.</returns>
    public static string Draw(FigureLabel label, int size, double range, ReadOnlySpan<byte> density)
    {
        var canvas = new SvgCanvas(Width, Top + Edge + 44, label);
        const double MiddleX = Left + (Edge / 2);
        const double MiddleY = Top + (Edge / 2);
        canvas.Line("grid", MiddleX, Top, MiddleX, Top + Edge);
        canvas.Line("grid", Left, MiddleY, Left + Edge, MiddleY);
        canvas.Line("grid fine", Left, Top, Left + Edge, Top + Edge);
        canvas.Line("grid fine", Left + Edge, Top, Left, Top + Edge);
        if (size > 0)
            canvas.Picture(Left, Top, Edge, Edge, Paint(size, density));
        canvas.Box("plate", Left, Top, Edge, Edge);
        canvas.Text("caption", Left, Top - 10, "middle", "Left");
        canvas.Text("caption", Left + Edge, Top - 10, "middle", "Right");
        canvas.Text("ofmid", MiddleX, Top - 10, "middle", "both alike");
        canvas.Text("ofside", Left - 8, MiddleY - 4, "end", "opposite");
        canvas.Text("ofside", Left - 8, MiddleY + 12, "end", "polarity");
        canvas.Text("ofside", Left + Edge + 8, MiddleY - 4, "start", "opposite");
        canvas.Text("ofside", Left + Edge + 8, MiddleY + 12, "start", "polarity");
        canvas.Text("tick", MiddleX, Top + Edge + 20, "middle", $"edge of the square {Markup.Readable(20 * Math.Log10(range), 1)} dBFS");
        canvas.Text("tick", MiddleX, Top + Edge + 38, "middle", "stronger colour: more often, log scale");
        return canvas.Close();
    }

    internal static byte[] Paint(int size, ReadOnlySpan<byte> density)
    {
        var pixels = new byte[size * size];
        for (var y = 0; y < size; y++)
        {
            for (var x = 0; x < size; x++)
            {
                // Seen at all stays seen: the palest tenth of the map is left out.
                var value = density[((size - 1 - y) * size) + x];
                pixels[(y * size) + x] = value == 0 ? (byte)0 : (byte)(26 + (value * 229 / 255));
            }
        }

        return PortableNetworkGraphics.Write(size, size, pixels, HeatMap.Colours(256), firstIsTransparent: true);
    }
}
