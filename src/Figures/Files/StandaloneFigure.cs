using System.Text.RegularExpressions;

namespace Athwart.Figures;

/// <summary>A figure as a file of its own: its size, its style and its colours inside it.</summary>
public static partial class StandaloneFigure
{
    /// <summary>Makes an SVG file of a figure.</summary>
    /// <param name="figure">An svg element as the figures return it.</param>
    /// <param name="palette">The colours.</param>
    /// <returns>The text of the file; any viewer shows it as the page does.</returns>
    /// <exception cref="ArgumentException">It is no figure of ours.</exception>
    public static string Svg(string figure, Palette palette)
    {
        ArgumentNullException.ThrowIfNull(figure);
        ArgumentNullException.ThrowIfNull(palette);
        var (width, height) = SizeOf(figure);
        var colours = palette.ToCss().Split(';').Select(rule => rule.Split(':')).ToDictionary(rule => rule[0], rule => rule[1], StringComparer.Ordinal);
        // Not every viewer knows custom properties.
        var style = Property().Replace(FigureStyle.Css, match => colours.GetValueOrDefault(match.Groups["name"].Value, "currentColor"));
        var head = figure.IndexOf('>', StringComparison.Ordinal) + 1;
        return $"{figure[..(head - 1)]} width=\"{Markup.Number(width)}\" height=\"{Markup.Number(height)}\">\n<style>{style}</style>\n<rect width=\"100%\" height=\"100%\" fill=\"{palette.Card}\"/>{figure[head..]}\n";
    }

    /// <summary>Width and height of a figure in its own units.</summary>
    /// <exception cref="ArgumentException">It is no figure of ours.</exception>
    public static (double Width, double Height) SizeOf(string figure)
    {
        var box = ViewBox().Match(figure);
        if (!box.Success)
            throw new ArgumentException("the text is no svg element with a viewBox that begins at 0 0", nameof(figure));
        return (Number(box.Groups["width"].Value), Number(box.Groups["height"].Value));

        static double Number(string text) => double.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
    }

    [GeneratedRegex("""^<svg [^>]*viewBox="0 0 (?<width>[0-9.]+) (?<height>[0-9.]+)" """, RegexOptions.NonBacktracking | RegexOptions.ExplicitCapture)]
    private static partial Regex ViewBox();

    [GeneratedRegex("""var\((?<name>--[a-z]+)\)""", RegexOptions.NonBacktracking | RegexOptions.ExplicitCapture)]
    private static partial Regex Property();
}
