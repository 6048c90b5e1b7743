using System.Globalization;
using System.Text;

namespace Athwart.Jobs.Strips;

/// <summary>Draws a strip: the mid above the line, the side below it, each with its own colour class.</summary>
public static class StripPicture
{
    /// <summary>SVG with classes 'mid' and 'side'; hidden from screen readers, for words say the same beside it.</summary>
    /// <param name="strip">The strip.</param>
    /// <param name="height">Height in units; a column is one unit wide.</param>
    /// <param name="toFullScale">Whether the height means full scale; else the louder of the two fills it.</param>
    public static string Draw(TakeStrip strip, int height, bool toFullScale)
    {
        ArgumentNullException.ThrowIfNull(strip);
        var columns = Math.Max(1, strip.Mid.Count);
        var peak = toFullScale ? 1 : Math.Max(1e-6f, Math.Max(strip.Mid.DefaultIfEmpty().Max(), strip.Side.DefaultIfEmpty().Max()));
        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture, $"<svg class=\"strip\" viewBox=\"0 0 {columns} {height}\" preserveAspectRatio=\"none\" aria-hidden=\"true\" focusable=\"false\">");
        Hill(svg, "mid", strip.Mid, peak, height, -1);
        Hill(svg, "side", strip.Side, peak, height, 1);
        return svg.Append("</svg>").ToString();
    }

    private static void Hill(StringBuilder svg, string role, IReadOnlyList<float> reach, float peak, int height, int direction)
    {
        var middle = height / 2.0;
        svg.Append(CultureInfo.InvariantCulture, $"<path class=\"{role}\" d=\"M0 {middle:0.#}");
        for (var i = 0; i < reach.Count; i++)
            svg.Append(CultureInfo.InvariantCulture, $"L{i + 0.5:0.#} {middle + (direction * (0.4 + (Math.Min(1, reach[i] / peak) * (middle - 1)))):0.#}");
        svg.Append(CultureInfo.InvariantCulture, $"L{reach.Count} {middle:0.#}Z\"/>");
    }
}
