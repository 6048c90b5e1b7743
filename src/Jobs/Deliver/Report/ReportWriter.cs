using System.Globalization;
using Athwart.Figures;
using Athwart.Jobs.Pages;

namespace Athwart.Jobs.Deliver.Report;

/// <summary>Writes the report of a delivery as one HTML file: no script, nothing fetched, pictures inside.</summary>
/// <remarks>
/// The text is well-formed XML as well as HTML, so that it can be checked by either. The same document gives the same text on the same
/// runtime; only the packing of the pictures may differ between runtimes.
/// </remarks>
public static class ReportWriter
{
    /// <summary>The whole report as text.</summary>
    public static string Write(ReportDocument document)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture) { NewLine = "\n" };
        Write(document, text);
        return text.ToString();
    }

    /// <summary>Writes the report piece by piece, so that a long one need not be held in memory. The file is UTF-8.</summary>
    public static void Write(ReportDocument document, TextWriter writer)
    {
        var html = new HtmlText(writer);
        Head(html, document);
        html.Raw("<body>\n").Raw(FigureStyle.NightFilter).Raw("\n<a class=\"skip\" href=\"#effects\">To the effects</a>\n<main>\n");
        Cover.Write(html, document);
        Overview.Write(html, document);
        html.Raw("<div id=\"effects\">\n");
        for (var i = 0; i < document.Effects.Count; i++)
            EffectCard.Write(html, i + 1, document.Effects[i]);
        html.Raw("</div>\n");
        Cover.WriteConventions(html, document);
        html.Raw("</main>\n</body>\n</html>\n");
    }

    private static void Head(HtmlText html, ReportDocument document)
    {
        html.Raw("<!DOCTYPE html>\n<html lang=\"en\" xmlns=\"http://www.w3.org/1999/xhtml\">\n<head>\n<meta charset=\"utf-8\"/>\n");
        html.Raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<meta name=\"color-scheme\" content=\"light dark\"/>\n");
        html.Raw("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src data:; style-src 'unsafe-inline'; media-src 'self' file:\"/>\n");
        html.Add($"<title>{document.Title}</title>\n");
        html.Raw("<style>\n").Raw(ReportStyle.Css).Raw("\n</style>\n</head>\n");
    }
}
