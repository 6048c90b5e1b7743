namespace Athwart.Figures.Rigs;

/// <summary>A mid with a side from above: a tube that points up, and a disc with its two lobes, plus to the left.</summary>
internal static class RigOutline
{
    public static void Draw(SvgCanvas canvas, double x, double y)
    {
        canvas.Add($"<rect class=\"body\" x=\"{SvgCanvas.N(x - 6)}\" y=\"{SvgCanvas.N(y - 14)}\" width=\"12\" height=\"50\" rx=\"5\"/>\n");
        canvas.Add($"<ellipse class=\"lobe plus\" cx=\"{SvgCanvas.N(x - 20)}\" cy=\"{SvgCanvas.N(y + 2)}\" rx=\"13\" ry=\"9\"/>\n");
        canvas.Add($"<ellipse class=\"lobe minus\" cx=\"{SvgCanvas.N(x + 20)}\" cy=\"{SvgCanvas.N(y + 2)}\" rx=\"13\" ry=\"9\"/>\n");
        canvas.Text("lobe-sign", x - 20, y + 7, "middle", "+");
        canvas.Text("lobe-sign", x + 20, y + 7, "middle", "−");
    }
}
