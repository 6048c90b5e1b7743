using System.Globalization;
using Athwart.Jobs.Pages;

namespace Athwart.Jobs.PlanRig;

/// <summary>The page to take along: set up, settings, what to record first, what to listen for, what to beware of. Prints on one page of A4 or Letter.</summary>
internal static class FieldSheet
{
    public static string Write(RigPlan plan)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        var page = new HtmlText(text);
        var d = plan.Document;
        page.Raw("<!doctype html>\n<html lang=\"en\" class=\"day\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\">")
            .Add($"<title>{Title(plan)}: field sheet</title>").Raw($"<style>{FieldSheetStyle.Css}</style></head>");
        // A long list of cautions is set smaller rather than broken over a second page.
        page.Raw(d.Cautions.Count + (d.Gains?.Messages.Count ?? 0) > 8 ? "<body class=\"full\">" : "<body>").Raw("<main>\n");
        Head(page, plan);
        page.Raw("<div class=\"columns\"><div>\n");
        page.Raw("<figure>").Raw(RigPictures.FromAbove(plan, "above")).Raw("</figure>\n");
        Steps(page, "Record first: the line-up", FieldSheetWords.LineUp);
        page.Raw("</div><div>\n");
        Inputs(page, plan);
        Settings(page, plan);
        Listening(page, d, plan.Rig.Recorder?.DecodesForMonitoring);
        page.Raw("</div></div>\n<div class=\"columns\"><div>\n");
        Bullets(page, "What ruins a take", FieldSheetWords.Ruins(d), "");
        page.Raw("</div><div>\n");
        Bullets(page, "Take care", d.Cautions, "care");
        page.Raw("</div></div>\n");
        page.Add($"<p class=\"foot\">{ProgramName.WithVersion}. Coverage counts a difference of {d.Coverage.ThresholdDecibels:0.#} dB as fully to one side. Local rules and licensed people come before this page.</p>");
        page.Raw("\n</main></body></html>\n");
        return text.ToString();
    }

    private static string Title(RigPlan plan) => plan.Outing.Title.Length > 0 ? plan.Outing.Title : plan.Document.Rig;

    private static void Head(HtmlText page, RigPlan plan)
    {
        var where = string.Join(", ", ((string[])[plan.Outing.Place, plan.Outing.Date]).Where(t => t.Length > 0));
        page.Add($"<header><h1>{Title(plan)}</h1>");
        if (where.Length > 0)
            page.Add($"<p class=\"where\">{where}</p>");
        page.Add($"<p class=\"rig\">{plan.Document.Parts.Mid} with {plan.Document.Parts.Side}</p></header>\n");
    }

    private static void Inputs(HtmlText page, RigPlan plan)
    {
        var gains = plan.Document.Gains;
        page.Raw("<h2>Plug in</h2><table><thead><tr><th>Input</th><th>Microphone</th><th>Gain</th><th>Phantom</th></tr></thead><tbody>");
        Row("1", "Mid: " + plan.Rig.Mid.Name, gains?.Mid.GainDecibels, plan.Rig.Mid.Microphone.PhantomMilliamperes);
        Row("2", "Side: " + plan.Rig.Side.Name, gains?.Side.GainDecibels, plan.Rig.Side.Microphone.PhantomMilliamperes);
        page.Raw("</tbody></table>\n<p>The side's plus lobe points <strong>left</strong>, square to the mid. ");
        if (gains?.TrimDecibels is { } trim)
            page.Add($"In the decode the side gets {trim:+0.0;−0.0;0.0} dB on top of the side level, because the gains step. ");
        page.Raw("</p>\n");

        void Row(string input, string name, double? gain, double? phantom) => page.Add(
            $"<tr><td>{input}</td><td>{name}</td><td>{(gain is { } g ? FormattableString.Invariant($"{g:0.#} dB") : "set by ear")}</td><td>{(phantom is { } mA ? mA > 0 ? FormattableString.Invariant($"on, {mA:0.#} mA") : "off" : "?")}</td></tr>");
    }

    private static void Settings(HtmlText page, RigPlan plan)
    {
        var d = plan.Document;
        page.Raw("<h2>Set</h2><dl>");
        Pair("Monitoring", FieldSheetWords.Monitoring(d, plan.Rig.Recorder?.DecodesForMonitoring));
        Pair("Coverage", d.Coverage.Degrees is { } degrees ? FormattableString.Invariant($"{degrees:0}° at a side level of {d.SideLevel.Decibels:+0.0;−0.0;0.0} dB") : "never reached at this side level");
        if (d.Subject is { } subject)
            Pair("Subject", FormattableString.Invariant($"{subject.What}; fills {subject.AngleDegrees:0}°; {subject.Verdict}"));
        Pair("File", FormattableString.Invariant($"{plan.Outing.RateHertz / 1000:0.###} kHz, {plan.Outing.WordBits} bits, 2 channels in one file; limiter, low cut and any processing off"));
        if (d.Power is { } power)
            Pair("Lasts", FieldSheetWords.Lasts(power));
        if (d.Gains is { } gains && gains.Mid.LoudestDecibelsFullScale is { } loudest)
            Pair("Level", FormattableString.Invariant($"loudest peak at {loudest:0.0} dBFS, quietest sound at {gains.Mid.QuietestDecibelsFullScale:0.0} dBFS on the mid"));
        foreach (var message in d.Gains?.Messages ?? [])
            Pair("Beware", message);
        page.Raw("</dl>\n");

        void Pair(string term, string value) => page.Add($"<div><dt>{term}</dt><dd>{value}</dd></div>");
    }

    private static void Listening(HtmlText page, RigDocument d, bool? decodes) =>
        Bullets(page, decodes == true ? "Listen for" : "By ear, when only the mid can be heard", FieldSheetWords.ByEar(d, decodes == true), "");

    private static void Steps(HtmlText page, string heading, IReadOnlyList<string> lines)
    {
        page.Add($"<h2>{heading}</h2><ol>");
        foreach (var line in lines)
            page.Add($"<li>{line}</li>");
        page.Raw("</ol>\n");
    }

    private static void Bullets(HtmlText page, string heading, IReadOnlyList<string> lines, string @class)
    {
        page.Add($"<section class=\"{@class}\"><h2>{heading}</h2><ul>");
        foreach (var line in lines)
            page.Add($"<li>{line}</li>");
        page.Raw("</ul></section>\n");
    }
}
