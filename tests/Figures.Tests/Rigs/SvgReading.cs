using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace Athwart.Figures.Tests.Rigs;

/// <summary>Reads a picture as a browser would, and says what is wrong with it.</summary>
internal static partial class SvgReading
{
    private static readonly string[] Coordinates = ["x", "y", "x1", "x2", "y1", "y2", "cx", "cy", "r", "rx", "ry", "width", "height"];
    private static readonly string[] NeverHere = ["style", "fill", "stroke", "color", "opacity", "font-family", "filter"];

    /// <summary>The words of a picture, title and description apart.</summary>
    public static IReadOnlyList<string> Words(string svg) => [.. Texts(XDocument.Parse(svg)).Select(t => t.Value)];

    /// <summary>What makes a picture unsound; empty when nothing does.</summary>
    public static IReadOnlyList<string> Faults(string svg)
    {
        var document = XDocument.Parse(svg);
        return [.. Frame(document.Root!), .. document.Descendants().SelectMany(Numbers), .. document.Descendants().SelectMany(Colours), .. Overlaps(document)];
    }

    private static IEnumerable<string> Frame(XElement root)
    {
        if (root.Attribute("role")?.Value != "img" || root.Attribute("aria-labelledby")?.Value != "rig-title rig-desc")
            yield return "no role or label";
        if (root.Elements().First() is not { Name.LocalName: "title", Value: "A <rig>" } || root.Elements().ElementAt(1) is not { Name.LocalName: "desc", Value: "What it says & means" })
            yield return "no title or description";
    }

    private static IEnumerable<string> Numbers(XElement element)
    {
        foreach (var attribute in element.Attributes().Where(a => Coordinates.Contains(a.Name.LocalName)))
        {
            if (!double.TryParse(attribute.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) || Math.Abs(value) > 1e4)
                yield return $"{element.Name.LocalName} has {attribute}";
        }

        if (element.Attribute("d") is { } path && !PathData().IsMatch(path.Value))
            yield return $"a path has {path.Value}";
        if (element.Name.LocalName is "rect" && (Of(element, "width") < 0 || Of(element, "height") < 0))
            yield return $"a box of negative size: {element}";
    }

    private static IEnumerable<string> Colours(XElement element)
    {
        foreach (var attribute in element.Attributes().Where(a => NeverHere.Contains(a.Name.LocalName) || Colour().IsMatch(a.Value)))
            yield return $"a colour or style of its own: {attribute}";
        // Every drawn element has a class: what has none is black by night too.
        if (element.Name.LocalName is "line" or "rect" or "path" or "circle" or "ellipse" or "text" && string.IsNullOrWhiteSpace(element.Attribute("class")?.Value))
            yield return $"no class: {element}";
    }

    /// <summary>Pairs of words that lie on each other, and words that leave the picture.</summary>
    private static IEnumerable<string> Overlaps(XDocument document)
    {
        var view = document.Root!.Attribute("viewBox")!.Value.Split(' ').Select(n => double.Parse(n, CultureInfo.InvariantCulture)).ToArray();
        var boxes = Texts(document).Select(t => (t.Value, Box: BoxOf(t))).ToList();
        for (var i = 0; i < boxes.Count; i++)
        {
            var a = boxes[i].Box;
            if (a.Left < -0.5 || a.Top < -0.5 || a.Right > view[2] + 0.5 || a.Bottom > view[3] + 0.5)
                yield return $"'{boxes[i].Value}' leaves the picture: {a}";
            foreach (var (text, b) in boxes.Skip(i + 1))
            {
                if (a.Left < b.Right && b.Left < a.Right && a.Top < b.Bottom && b.Top < a.Bottom)
                    yield return $"'{boxes[i].Value}' lies on '{text}': {a} and {b}";
            }
        }
    }

    private static IEnumerable<XElement> Texts(XDocument document) => document.Descendants().Where(e => e.Name.LocalName == "text");

    /// <summary>About: 0.55 em a letter, 13 px, from 10 px above the base line to 3 below.</summary>
    private static (double Left, double Top, double Right, double Bottom) BoxOf(XElement text)
    {
        var width = text.Value.EnumerateRunes().Count() * 0.55 * 13;
        var (x, y) = (Of(text, "x"), Of(text, "y"));
        var left = text.Attribute("text-anchor")!.Value switch { "start" => x, "end" => x - width, _ => x - (width / 2) };
        return (left, y - 10, left + width, y + 3);
    }

    private static double Of(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(?:[MLAZlvhac ]|-?\d+(?:\.\d+)?)+$", RegexOptions.None, 5000)]
    private static partial Regex PathData();

    [GeneratedRegex(@"#[0-9a-fA-F]{3,8}\b|rgba?\(|hsl|\b(?:black|white|red|green|blue|grey|gray)\b", RegexOptions.None, 5000)]
    private static partial Regex Colour();
}
