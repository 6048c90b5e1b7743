using System.Globalization;
using Athwart.Quantities;

namespace Athwart.Figures;

/// <summary>The numbered mark of a finding: a circle for a note, a diamond for a caution, a filled square for a fault.</summary>
public static class FindingMark
{
    private const double Size = 24;

    /// <summary>The mark alone, to stand before the finding's text; hidden from screen readers, which get the words.</summary>
    public static string Draw(int number, FindingSeverity severity)
    {
        var canvas = new SvgCanvas(Size, Size, "mark");
        Draw(canvas, Size / 2, Size / 2, number, severity);
        return canvas.Close();
    }

    internal static string Class(FindingSeverity severity) => severity switch
    {
        FindingSeverity.Fault => "fault",
        FindingSeverity.Caution => "caution",
        _ => "note",
    };

    internal static void Draw(SvgCanvas canvas, double x, double y, int number, FindingSeverity severity)
    {
        var kind = Class(severity);
        var (cx, cy) = (Markup.Number(x), Markup.Number(y));
        canvas.Add($"<g class=\"mark\">");
        switch (severity)
        {
            case FindingSeverity.Fault:
                canvas.Add($"<rect class=\"shape {kind}\" x=\"{Markup.Number(x - 9)}\" y=\"{Markup.Number(y - 9)}\" width=\"18\" height=\"18\" rx=\"2\"/>");
                break;
            case FindingSeverity.Caution:
                canvas.Add($"<rect class=\"shape {kind}\" x=\"{Markup.Number(x - 8)}\" y=\"{Markup.Number(y - 8)}\" width=\"16\" height=\"16\" rx=\"1.5\" transform=\"rotate(45 {cx} {cy})\"/>");
                break;
            default:
                canvas.Add($"<circle class=\"shape {kind}\" cx=\"{cx}\" cy=\"{cy}\" r=\"9.5\"/>");
                break;
        }

        canvas.Add($"<text class=\"{kind}\" x=\"{cx}\" y=\"{Markup.Number(y + 4)}\" text-anchor=\"middle\">{number.ToString(CultureInfo.InvariantCulture)}</text></g>\n");
    }
}
