using System.Globalization;
using Athwart.Figures;
using Athwart.Jobs.Pages;
using Athwart.Quantities;

namespace Athwart.Jobs.Deliver.Report;

/// <summary>One effect: what it is, how it sounds, how it looks, what was found, where it comes from.</summary>
internal static class EffectCard
{
    public static void Write(HtmlText html, int number, ReportEffect effect)
    {
        var findings = EffectFinding.Of(effect);
        html.Add($"<article class=\"card\" id=\"effect-{number}\" aria-labelledby=\"effect-{number}-title\">\n");
        Header(html, number, effect);
        Audition(html, effect);
        if (effect.Portrait is { } portrait)
        {
            html.Raw("<div class=\"plate-row\">\n").Raw(EffectFigures.Waveform(number, effect, portrait, findings)).Raw("\n</div>\n");
            FindingList(html, number, findings);
            html.Raw("<div class=\"plate-row\">\n").Raw(EffectFigures.Spectrogram(number, effect, portrait)).Raw("\n</div>\n");
            html.Raw("<div class=\"plate-row\">\n").Raw(EffectFigures.Correlation(number, effect, portrait)).Raw("\n</div>\n");
            if (effect.Direction is { } trail)
                html.Raw("<div class=\"plate-row\">\n").Raw(EffectFigures.Direction(number, effect, trail)).Raw("\n</div>\n");
        }
        else
        {
            FindingList(html, number, findings);
        }

        html.Raw("<div class=\"pair\">\n");
        if (effect.Portrait is { } pictured)
            html.Raw("<div class=\"vector\">\n").Raw(EffectFigures.Vector(number, effect, pictured)).Raw("\n</div>\n");
        html.Raw("<div class=\"numbers\">\n");
        LoudnessTable.Write(html, effect);
        html.Raw("</div>\n</div>\n");
        Provenance(html, effect);
        html.Raw("</article>\n");
    }

    private static void Header(HtmlText html, int number, ReportEffect effect)
    {
        html.Add($"<header>\n<p class=\"kicker\">Effect {number}</p>\n<h2 id=\"effect-{number}-title\" dir=\"auto\">{effect.Name}</h2>\n");
        if (effect.Description.Length > 0)
            html.Add($"<p class=\"lead\" dir=\"auto\">{effect.Description}</p>\n");
        html.Raw("<dl class=\"facts\">\n");
        Cover.Fact(html, "Length", ReportWords.Duration((double)effect.Length.Value / effect.SampleRateHertz));
        Cover.Fact(html, "Format", $"{new Hertz(effect.SampleRateHertz)}, {effect.Word}");
        Cover.Fact(html, "Side level", Overview.Level(effect.SideLevel.Value, 1, "dB", true));
        Cover.Fact(html, "Trim", (effect.Trim.Value == 0 ? "none" : Overview.Level(effect.Trim.Value, 1, "dB", true)) + (effect.TrimReason.Length > 0 ? $", {effect.TrimReason}" : ""));
        Cover.Fact(html, "Keywords", string.Join(", ", effect.Keywords));
        html.Raw("</dl>\n");
        html.Add($"<p class=\"meaning\"><strong>Width:</strong> {effect.SideLevelMeaning ?? ReportWords.SideLevel(effect.SideLevel)}.</p>\n</header>\n");
    }

    private static void Audition(HtmlText html, ReportEffect effect)
    {
        if (effect.AuditionFile is not { } file)
            return;
        var address = Address(file);
        html.Add($"<div class=\"audition\">\n<audio controls=\"controls\" preload=\"none\" src=\"{address}\" aria-label=\"Play {effect.Name}\"></audio>\n");
        var peak = effect.Loudness?.MaxMomentary is { } loudest ? $"Loudest moment {Overview.Level(loudest.Value, 1, "LUFS", false)}: s" : "S";
        html.Add($"<p>{peak}tart with headphones turned down. If it does not play here, <a href=\"{address}\">open the file</a>.</p>\n</div>\n");
    }

    /// <summary>A relative path as an address: each part escaped, so that '#', '?' and spaces mean themselves, and never a scheme.</summary>
    internal static string Address(string path) => "./" + string.Join('/', path.Split('/').Select(Uri.EscapeDataString));

    private static void FindingList(HtmlText html, int number, IReadOnlyList<EffectFinding> findings)
    {
        if (findings.Count == 0)
        {
            html.Raw("<p class=\"clear\">No findings: nothing was found wrong.</p>\n");
            return;
        }

        html.Add($"<section class=\"findings\">\n<h3 id=\"effect-{number}-findings\">Findings</h3>\n<ol>\n");
        foreach (var found in findings)
            WriteFinding(html, found);
        html.Raw("</ol>\n</section>\n");
    }

    private static void WriteFinding(HtmlText html, EffectFinding found)
    {
        var finding = found.Finding;
        html.Raw("<li>").Raw(FindingMark.Draw(found.Number, finding.Severity));
        html.Add($"<div><p><strong class=\"word-{FindingClass(finding.Severity)}\">{ReportWords.Severity(finding.Severity)}</strong> <span class=\"where\">{Where(found)}</span></p>\n");
        html.Add($"<p dir=\"auto\">{finding.Message}</p>\n");
        if (finding.Remedy.Length > 0)
            html.Add($"<p class=\"remedy\" dir=\"auto\"><strong>Remedy:</strong> {finding.Remedy}</p>\n");
        html.Raw("</div></li>\n");
    }

    private static string FindingClass(FindingSeverity severity) => ReportWords.Severity(severity).ToLowerInvariant();

    private static string Where(EffectFinding found)
    {
        var role = found.Finding.Role is { } named and not ChannelRole.Other ? "in the " + named.ToString().ToLowerInvariant() + ", " : "";
        if (found is not { FromSeconds: { } from, ToSeconds: { } to })
            return role + "throughout";
        return string.Equals(ReportWords.Place(from), ReportWords.Place(to), StringComparison.Ordinal)
            ? $"{role}at {ReportWords.Place(from)}"
            : $"{role}{ReportWords.Place(from)} to {ReportWords.Place(to)}";
    }

    private static void Provenance(HtmlText html, ReportEffect effect)
    {
        if (effect.Files.Count == 0 && effect.Source is null)
            return;
        html.Raw("<section class=\"files\">\n<h3>Files</h3>\n<table>\n<tbody>\n");
        foreach (var file in effect.Files)
        {
            html.Add($"<tr><th scope=\"row\">{file.What}</th><td><a href=\"{Address(file.Path)}\"><bdi>{file.Path}</bdi></a>");
            html.Add($"{(file.Detail.Length > 0 ? " · " + file.Detail : "")}</td><td class=\"hash\" title=\"SHA-256 {file.Sha256}\">{Short(file.Sha256)}</td></tr>\n");
        }

        if (effect.Source is { } source)
            Source(html, source);
        html.Raw("</tbody>\n</table>\n</section>\n");
    }

    private static void Source(HtmlText html, ReportSource source)
    {
        var from = ReportWords.Place((double)source.Cut.From.Value / source.SampleRateHertz);
        var to = ReportWords.Place((double)source.Cut.To.Value / source.SampleRateHertz);
        html.Add($"<tr><th scope=\"row\">Cut from</th><td colspan=\"2\"><bdi>{source.Take}</bdi>, {from} to {to}");
        html.Add($" (frames {source.Cut.From.Value.ToString("#,0", CultureInfo.InvariantCulture)} to {source.Cut.To.Value.ToString("#,0", CultureInfo.InvariantCulture)})");
        html.Add($"<br/><span class=\"quiet\"><bdi>{string.Join(", ", source.Files)}</bdi>{(source.Recorded.Length > 0 ? $", recorded {source.Recorded}" : "")}</span></td></tr>\n");
    }

    private static string Short(string hash) => hash.Length > 12 ? hash[..12] + "…" : hash;
}
