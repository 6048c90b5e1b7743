using System.Globalization;
using Athwart.Jobs.Pages;

namespace Athwart.Jobs.PlanRig;

/// <summary>The page to take along: set up, settings, what to record first, what to listen for, what to beware of. Prints on one page of A4 or Letter.</summary>
internal static class FieldSheet
{
    private const double LettersOnAPage = 2850;

    /// <summary>More warnings than these say the same again; the plan has them all.</summary>
    private const int MostWarnings = 4;

    public static string Write(RigPlan plan)
    {
        var body = Body(plan);
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        var page = new HtmlText(text);
        page.Raw("<!doctype html>\n<html lang=\"en\" class=\"day\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\">")
            .Add($"<title>{Title(plan)}: field sheet</title>").Raw($"<style>{FieldSheetStyle.Css}</style></head>")
            .Add($"<body><main style=\"font-size:{Size(body):0.##}pt\">\n").Raw(body).Raw("</main></body></html>\n");
        return text.ToString();
    }

    /// <summary>
    /// The size of letters, in points, that keeps the words on one page of the shorter Letter: what fills a page grows with the number of
    /// letters and with the square of their size. Measured by printing sheets of every length.
    /// </summary>
    private static double Size(string body)
    {
        return Math.Clamp(9.5 * Math.Sqrt(LettersOnAPage / Letters(body)), 6.2, 9.5);
    }

    // Tags and the picture are no letters.
    private static int Letters(string body)
    {
        var (letters, inTag) = (0, false);
        var picture = (From: body.IndexOf("<svg", StringComparison.Ordinal), To: body.IndexOf("</svg>", StringComparison.Ordinal));
        for (var n = 0; n < body.Length; n = n == picture.From ? Math.Max(picture.To, n + 1) : n + 1)
        {
            inTag = body[n] == '<' || (inTag && body[n] != '>');
            letters += inTag ? 0 : 1;
        }

        return Math.Max(1, letters);
    }

    private static string Body(RigPlan plan)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        var page = new HtmlText(text);
        var d = plan.Document;
        Head(page, plan);
        page.Raw("<div class=\"columns\">\n");
        page.Raw("<figure>").Raw(RigPictures.FromAbove(plan, "above")).Raw("</figure>\n");
        Inputs(page, plan);
        Settings(page, plan);
        Steps(page, "Record first: the line-up", FieldSheetWords.LineUp);
        Listening(page, plan.Rig.Recorder?.DecodesForMonitoring);
        Bullets(page, "What ruins a take", FieldSheetWords.Ruins(d), "");
        Bullets(page, "Take care", d.Cautions, "care");
        page.Raw("</div>\n");
        page.Add($"<p class=\"foot\">{ProgramName.WithVersion}. Coverage counts a difference of {d.Coverage.ThresholdDecibels:0.#} dB as fully to one side. Local rules and licensed people come before this page.</p>");
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
        page.Raw("<section><h2>Plug in</h2><table><thead><tr><th>Input</th><th>Microphone</th><th>Gain</th><th>Phantom</th></tr></thead><tbody>");
        Row("1", "Mid: " + plan.Rig.Mid.Name, gains?.Mid.GainDecibels, plan.Rig.Mid.Microphone.PhantomMilliamperes);
        Row("2", "Side: " + plan.Rig.Side.Name, gains?.Side.GainDecibels, plan.Rig.Side.Microphone.PhantomMilliamperes);
        page.Raw("</tbody></table>\n<p>The side's plus lobe points <strong>left</strong>, square to the mid. ");
        if (gains?.TrimDecibels is { } trim && Math.Abs(trim) >= 0.05)
            page.Add($"In the decode the side gets {trim:+0.0;−0.0;0.0} dB on top of the side level, because the gains step. ");
        page.Raw("</p></section>\n");

        void Row(string input, string name, double? gain, double? phantom) => page.Add(
            $"<tr><td>{input}</td><td>{name}</td><td>{(gain is { } g ? FormattableString.Invariant($"{g:0.#} dB") : "set by ear")}</td><td>{(phantom is { } mA ? mA > 0 ? FormattableString.Invariant($"on, {mA:0.#} mA") : "off" : "?")}</td></tr>");
    }

    private static void Settings(HtmlText page, RigPlan plan)
    {
        var d = plan.Document;
        page.Raw("<section><h2>Set</h2><dl>");
        Pair("Monitoring", FieldSheetWords.Monitoring(d, plan.Rig.Recorder?.DecodesForMonitoring));
        Pair("Coverage", d.Coverage.Degrees is { } degrees ? FormattableString.Invariant($"{degrees:0}° at a side level of {d.SideLevel.Decibels:+0.0;−0.0;0.0} dB") : "never reached at this side level");
        if (d.Subject is { } subject)
            Pair("Subject", FormattableString.Invariant($"{subject.What}; {subject.AngleDegrees:0}° wide from here; {subject.Verdict}"));
        if (With(d.Parts) is { Length: > 0 } with)
            Pair("With", with);
        Pair("File", FormattableString.Invariant($"{plan.Outing.RateHertz / 1000:0.###} kHz, {plan.Outing.WordBits} bits, 2 channels in one file; limiter, low cut and any processing off"));
        if (d.Power is { } power)
            Pair("Lasts", FieldSheetWords.Lasts(power));
        if (d.Gains is { } gains && gains.Mid.LoudestDecibelsFullScale is { } loudest)
            Pair("Level", FormattableString.Invariant($"loudest peak at {loudest:0.0;−0.0} dBFS, quietest sound at {gains.Mid.QuietestDecibelsFullScale:0.0;−0.0} dBFS on the mid"));
        foreach (var message in (d.Gains?.Messages ?? []).Take(MostWarnings))
            Pair("Beware", message);
        page.Raw("</dl></section>\n");

        void Pair(string term, string value) => page.Add($"<div><dt>{term}</dt><dd>{value}</dd></div>");
    }

    private static string With(PartsSection parts) => string.Join("; ", ((string?[])[parts.Recorder, parts.Protection is { } p ? "wind: " + p : null]).OfType<string>());

    private static void Listening(HtmlText page, bool? decodes) =>
        Bullets(page, decodes == true ? "Listen for" : "By ear, when only the mid can be heard", FieldSheetWords.ByEar(decodes == true), "");

    private static void Steps(HtmlText page, string heading, IReadOnlyList<string> lines)
    {
        page.Add($"<section><h2>{heading}</h2><ol>");
        foreach (var line in lines)
            page.Add($"<li>{line}</li>");
        page.Raw("</ol></section>\n");
    }

    private static void Bullets(HtmlText page, string heading, IReadOnlyList<string> lines, string @class)
    {
        page.Add($"<section class=\"{@class}\"><h2>{heading}</h2><ul>");
        foreach (var line in lines)
            page.Add($"<li>{line}</li>");
        page.Raw("</ul></section>\n");
    }
}
