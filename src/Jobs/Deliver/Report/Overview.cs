using System.Globalization;
using Athwart.Figures;
using Athwart.Jobs.Pages;

namespace Athwart.Jobs.Deliver.Report;

/// <summary>One row an effect, each leading to its card.</summary>
internal static class Overview
{
    public static void Write(HtmlText html, ReportDocument document)
    {
        html.Raw("<section class=\"overview\" aria-labelledby=\"overview-title\">\n<h2 id=\"overview-title\">Overview</h2>\n");
        if (document.Effects.Count == 0)
        {
            html.Raw("<p>No effects were delivered.</p>\n</section>\n");
            return;
        }

        html.Raw("<table>\n<thead><tr><th scope=\"col\" class=\"name\">Effect</th><th scope=\"col\" class=\"shape\">Mid above, side below</th>");
        html.Raw("<th scope=\"col\">Length</th><th scope=\"col\">Side level</th><th scope=\"col\">Loudness</th><th scope=\"col\">True peak</th><th scope=\"col\" class=\"tally\">Findings</th></tr></thead>\n<tbody>\n");
        for (var i = 0; i < document.Effects.Count; i++)
            Row(html, i + 1, document.Effects[i]);
        html.Raw("</tbody>\n</table>\n</section>\n");
    }

    private static void Row(HtmlText html, int number, ReportEffect effect)
    {
        var findings = EffectFinding.Of(effect);
        html.Add($"<tr><th scope=\"row\" class=\"name\"><span class=\"no\">{number}</span><a href=\"#effect-{number}\" dir=\"auto\">{effect.Name}</a></th><td class=\"shape\">");
        if (effect.Portrait is { } portrait)
            html.Raw(Sparkline.Draw(EffectFigures.Trace(portrait.Mid), EffectFigures.Trace(portrait.Side)));
        html.Add($"</td><td>{ReportWords.Duration((double)effect.Length.Value / effect.SampleRateHertz)}</td>");
        html.Add($"<td>{Level(effect.SideLevel.Value, 1, "dB", true)}</td>");
        html.Add($"<td>{Level(effect.Loudness?.Integrated?.Value, 1, "LUFS", false)}</td><td>{Level(effect.Loudness?.TruePeak?.Value, 1, "dBTP", true)}</td>");
        html.Raw("<td class=\"tally\">").Add($"{(findings.Count == 0 ? "none" : "")}");
        foreach (var part in ReportWords.Tally(findings))
            html.Add($"<span>{part}</span> ");
        html.Raw("</td></tr>\n");
    }

    internal static string Level(double? value, int decimals, string unit, bool plus)
        => value is { } level ? string.Create(CultureInfo.InvariantCulture, $"{Markup.Readable(level, decimals, plus)} {unit}") : "–";
}
