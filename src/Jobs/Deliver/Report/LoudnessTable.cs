using Athwart.Figures;
using Athwart.Jobs.Pages;

namespace Athwart.Jobs.Deliver.Report;

/// <summary>Loudness and peaks of the stereo file with bars, and what mono makes of it.</summary>
internal static class LoudnessTable
{
    public static void Write(HtmlText html, ReportEffect effect)
    {
        if (effect.Loudness is { } loudness)
        {
            html.Raw("<table class=\"levels\">\n<thead><tr><th scope=\"col\">Stereo file</th><th scope=\"col\" class=\"value\">Level</th><th scope=\"col\" class=\"bar-cell\"><span class=\"scale\"><span>−60</span><span>−40</span><span>−20</span><span>0</span></span></th></tr></thead>\n<tbody>\n");
            Row(html, "Integrated", loudness.Integrated?.Value, "LUFS", true);
            Row(html, "Max short-term", loudness.MaxShortTerm?.Value, "LUFS", true);
            Row(html, "Max momentary", loudness.MaxMomentary?.Value, "LUFS", true);
            Row(html, "Loudness range", loudness.Range?.Value, "LU", false);
            Row(html, "True peak", loudness.TruePeak?.Value, "dBTP", true);
            Row(html, "Sample peak", loudness.SamplePeak?.Value, "dBFS", true);
            html.Raw("</tbody>\n</table>\n");
        }

        if (effect.Mono is { } mono)
            Mono(html, mono);
    }

    private static void Row(HtmlText html, string name, double? value, string unit, bool bar)
    {
        html.Add($"<tr><th scope=\"row\">{name}</th><td class=\"value\">{Overview.Level(value, 1, unit, false)}</td><td class=\"bar-cell\">");
        if (bar && value is { } level)
            html.Raw(LevelBar.Draw(level));
        html.Raw("</td></tr>\n");
    }

    private static void Mono(HtmlText html, ReportMono mono)
    {
        html.Raw("<h3>In mono</h3>\n");
        if (mono.FoldChange is { } change)
            html.Add($"<p class=\"figure-number\">{Markup.Readable(change.Value, 1, true)} LU</p>\n<p>{Meaning(change.Value)}</p>\n");
        html.Raw("<p>");
        if (mono.Correlation is { } whole)
            html.Add($"Correlation of left and right {Markup.Readable(whole, 2, true)} over the whole. ");
        if (mono.WorstCorrelation is { } worst)
            html.Add($"Lowest 400 ms: {Markup.Readable(worst, 2, true)}{(mono.WorstAtSeconds is { } at ? $", at {ReportWords.Place(at)}" : "")}.");
        html.Raw("</p>\n");
    }

    private static string Meaning(double change) => change switch
    {
        double.NegativeInfinity => "Nothing is left when left and right are added and halved: do not use it where mono is heard.",
        < -6 => "Much softer when left and right are added and halved: most of the sound is in the side.",
        < -3.5 => "Softer when left and right are added and halved: listen to the mono before using it there.",
        _ => "How much softer it gets when left and right are added and halved: it holds in mono.",
    };
}
