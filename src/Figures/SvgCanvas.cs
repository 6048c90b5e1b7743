using System.Globalization;
using System.Text;

namespace Athwart.Figures;

/// <summary>Collects the elements of one SVG picture; every colour is a class of <see cref="FigureStyle"/>.</summary>
internal sealed class SvgCanvas
{
    private readonly StringBuilder _text = new();

    /// <summary>Opens a picture with title and description.</summary>
    public SvgCanvas(double width, double height, FigureLabel label)
    {
        var id = Markup.Escape(label.Id);
        Add($"<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"figure\" viewBox=\"0 0 {N(width)} {N(height)}\" role=\"img\" aria-labelledby=\"{id}-title {id}-desc\">\n");
        Add($"<title id=\"{id}-title\">{Markup.Escape(label.Title)}</title>\n<desc id=\"{id}-desc\">{Markup.Escape(label.Description)}</desc>\n");
    }

    /// <summary>Opens a picture that says nothing the text beside it does not say.</summary>
    public SvgCanvas(double width, double height, string @class)
        => Add($"<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"{@class}\" viewBox=\"0 0 {N(width)} {N(height)}\" aria-hidden=\"true\" focusable=\"false\">\n");

    public static string N(double value) => Markup.Number(value);

    public void Add(FormattableString markup) => _text.Append(markup.ToString(CultureInfo.InvariantCulture));

    public void Line(string @class, double x1, double y1, double x2, double y2)
        => Add($"<line class=\"{@class}\" x1=\"{N(x1)}\" y1=\"{N(y1)}\" x2=\"{N(x2)}\" y2=\"{N(y2)}\"/>\n");

    public void Box(string @class, double x, double y, double width, double height)
        => Add($"<rect class=\"{@class}\" x=\"{N(x)}\" y=\"{N(y)}\" width=\"{N(width)}\" height=\"{N(height)}\"/>\n");

    public void Path(string @class, StringBuilder path) => Add($"<path class=\"{@class}\" d=\"{path}\"/>\n");

    /// <summary>Text; the anchor is 'start', 'middle' or 'end'.</summary>
    public void Text(string @class, double x, double y, string anchor, string text)
        => Add($"<text class=\"{@class}\" x=\"{N(x)}\" y=\"{N(y)}\" text-anchor=\"{anchor}\">{Markup.Escape(text)}</text>\n");

    public void Picture(double x, double y, double width, double height, byte[] png)
        => Add($"<image class=\"heat\" x=\"{N(x)}\" y=\"{N(y)}\" width=\"{N(width)}\" height=\"{N(height)}\" preserveAspectRatio=\"none\" href=\"{PortableNetworkGraphics.DataAddress(png)}\"/>\n");

    public string Close() => _text.Append("</svg>").ToString();
}
