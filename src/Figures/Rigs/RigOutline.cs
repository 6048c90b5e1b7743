namespace Athwart.Figures.Rigs;

/// <summary>A mid with a side from above: a tube that points up, and a disc with its two lobes, plus to the left.</summary>
internal static class RigOutline
{
    private const string Side = "side, plus left";

    public static void Draw(SvgCanvas canvas, double x, double y, double side)
    {
        canvas.Add($"<rect class=\"body\" x=\"{SvgCanvas.N(x - 6)}\" y=\"{SvgCanvas.N(y - 14)}\" width=\"12\" height=\"50\" rx=\"5\"/>\n");
        canvas.Add($"<ellipse class=\"lobe plus\" cx=\"{SvgCanvas.N(x - 20)}\" cy=\"{SvgCanvas.N(y + 2)}\" rx=\"13\" ry=\"9\"/>\n");
        canvas.Add($"<ellipse class=\"lobe minus\" cx=\"{SvgCanvas.N(x + 20)}\" cy=\"{SvgCanvas.N(y + 2)}\" rx=\"13\" ry=\"9\"/>\n");
        canvas.Text("lobe-sign", x - 20, y + 7, "middle", "+");
        canvas.Text("lobe-sign", x + 20, y + 7, "middle", "−");
        canvas.Text("ofmid halo", x + 12, y + 40, "start", "mid");
        canvas.Text("ofside halo", x - 36, side, "end", Side);
    }

    /// <summary>Takes the place of the rig and its words before other words are placed.</summary>
    public static void Reserve(LabelPlaces places, double x, double y, double side)
    {
        foreach (var row in (double[])[-4, 12, 26, 40])
            places.Take(x, y + row, "middle", row < 20 ? 66 : 12);
        places.Take(x + 12, y + 40, "start", LabelPlaces.WidthOf("mid"));
        places.Take(x - 36, side, "end", LabelPlaces.WidthOf(Side));
    }
}
