using System.Globalization;
using System.Xml.Linq;

namespace Athwart.Figures.Tests.Rigs;

/// <summary>The texts of a picture as boxes, by a rough width of letters.</summary>
internal static class Labels
{
    private const double LetterWidth = 6.6;
    private const double Above = 10;
    private const double Below = 3;

    public static IReadOnlyList<(string Text, double Left, double Right, double Top, double Bottom)> Of(string svg) =>
    [
        .. XDocument.Parse(svg).Descendants().Where(e => e.Name.LocalName == "text").Select(e =>
        {
            var (x, y, width) = (Number(e, "x"), Number(e, "y"), e.Value.Length * LetterWidth);
            var left = e.Attribute("text-anchor")!.Value switch { "middle" => x - (width / 2), "end" => x - width, _ => x };
            return (e.Value, left, left + width, y - Above, y + Below);
        }),
    ];

    /// <summary>Fails with the two texts when one lies on another.</summary>
    public static void DoNotOverlap(string svg)
    {
        var labels = Of(svg);
        for (var a = 0; a < labels.Count; a++)
        {
            for (var b = a + 1; b < labels.Count; b++)
            {
                var (one, other) = (labels[a], labels[b]);
                if (one.Left < other.Right && other.Left < one.Right && one.Top < other.Bottom && other.Top < one.Bottom)
                    Assert.Fail($"'{one.Text}' lies on '{other.Text}':\n{svg}");
            }
        }
    }

    /// <summary>Fails when a text leaves the picture.</summary>
    public static void AreInside(string svg, double margin = 8)
    {
        var (width, height) = StandaloneFigure.SizeOf(svg);
        Assert.All(Of(svg), l => Assert.True(l.Left >= -margin && l.Right <= width + margin && l.Top >= -margin && l.Bottom <= height + margin, $"'{l.Text}' leaves the picture"));
    }

    private static double Number(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
