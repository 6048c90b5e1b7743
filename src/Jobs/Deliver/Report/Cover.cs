using System.Globalization;
using Athwart.Figures;
using Athwart.Jobs.Pages;

namespace Athwart.Jobs.Deliver.Report;

/// <summary>The first lines of a report, and the last.</summary>
internal static class Cover
{
    public static void Write(HtmlText html, ReportDocument document)
    {
        html.Raw("<header class=\"cover\">\n<p class=\"kicker\">Sound effects, mid/side recording</p>\n");
        html.Add($"<h1 dir=\"auto\">{document.Title}</h1>\n");
        html.Raw("<dl class=\"facts\">\n");
        Fact(html, "Delivered", document.Date.ToString("d MMMM yyyy", CultureInfo.InvariantCulture));
        Fact(html, "Recorded by", document.Recordist);
        Fact(html, "Library", document.Library);
        Fact(html, "Effects", Amount(document));
        Fact(html, document.Sessions.Count == 1 ? "Session" : "Sessions", string.Join(" · ", document.Sessions));
        html.Raw("</dl>\n");
        if (document.Introduction.Length > 0)
            html.Add($"<p class=\"lead\" dir=\"auto\">{document.Introduction}</p>\n");
        Before(html, document);
        html.Raw("</header>\n");
    }

    public static void WriteConventions(HtmlText html, ReportDocument document)
    {
        html.Raw("<footer class=\"conventions\">\n");
        if (document.Conventions.Count > 0)
        {
            html.Raw("<h2>How to read the numbers</h2>\n<ul>\n");
            foreach (var line in document.Conventions)
                html.Add($"<li dir=\"auto\">{line}</li>\n");
            html.Raw("</ul>\n");
        }

        html.Raw("<p>Loudness is measured over left and right together; momentary looks at 400 ms, short-term at 3 s. Pictures show the mid and the side as recorded, before trim and side level; the left/right picture and the correlation are taken at the side level of the effect.</p>\n");
        if (document.Program.Length > 0)
            html.Add($"<p class=\"program\">{document.Program}</p>\n");
        html.Raw("</footer>\n");
    }

    internal static void Fact(HtmlText html, string name, string value)
    {
        if (value.Length > 0)
            html.Add($"<div><dt>{name}</dt><dd dir=\"auto\">{value}</dd></div>\n");
    }

    private static string Amount(ReportDocument document)
    {
        var seconds = document.Effects.Sum(e => (double)e.Length.Value / e.SampleRateHertz);
        return string.Create(CultureInfo.InvariantCulture, $"{document.Effects.Count} · {ReportWords.Duration(seconds)} in all");
    }

    /// <summary>The cautions of the document, and how far apart the loudest and the softest effect are.</summary>
    private static void Before(HtmlText html, ReportDocument document)
    {
        var cautions = new List<string>();
        if (Spread(document) is { } spread)
            cautions.Add(spread);
        cautions.AddRange(document.Cautions);
        if (cautions.Count == 0)
            return;
        html.Raw("<aside class=\"before\" aria-label=\"Before you listen\">\n<h2>Before you listen</h2>\n<ul>\n");
        foreach (var caution in cautions)
            html.Add($"<li dir=\"auto\">{caution}</li>\n");
        html.Raw("</ul>\n</aside>\n");
    }

    private static string? Spread(ReportDocument document)
    {
        if (!document.Effects.Any(e => e.AuditionFile is not null))
            return null;
        var measured = document.Effects
            .Select(e => (e.Name, Level: e.Loudness?.MaxMomentary?.Value ?? double.NaN))
            .Where(e => double.IsFinite(e.Level)).OrderBy(e => e.Level).ToList();
        if (measured.Count == 0)
            return "Turn your headphones down before playing: levels are those of the sound, not of a programme.";
        var (soft, loud) = (measured[0], measured[^1]);
        var difference = loud.Level - soft.Level < 6 ? "" : $", {Markup.Readable(loud.Level - soft.Level, 0)} LU above “{soft.Name}”";
        return $"Turn your headphones down before playing. The loudest moment is in “{loud.Name}”, at {Markup.Readable(loud.Level, 1)} LUFS{difference}.";
    }
}
