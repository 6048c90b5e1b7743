using System.Globalization;
using Athwart.Jobs.Pages;
using static System.FormattableString;

namespace Athwart.Jobs.PlanRig;

/// <summary>A choice as a page: what was asked, the trade-offs drawn, the places, and what the others fail at.</summary>
internal static class ChoicePage
{
    public static string Write(ChoiceDocument d)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        var page = new HtmlText(text);
        PlanPage.Begin(page, "Which pair", "one");
        PlanPage.Lines(page, "Asked", d.Asked, "");
        PlanPage.Lines(page, "To know", d.Remarks, "");
        if (d.Ranked.Count == 0)
            page.Raw("<section><p>No pair of the kit does all that; below is what each fails at.</p></section>\n");
        else
            Ranked(page, d);
        Rejected(page, d);
        PlanPage.End(page);
        return text.ToString();
    }

    private static void Ranked(HtmlText page, ChoiceDocument d)
    {
        page.Raw("<section><h2>Cost against noise</h2><p class=\"say\">Each number is a pair of the table below. Those on the line are the best trade-offs: no other pair is as good in cost, noise and coverage together.</p><div class=\"figures\"><figure>")
            .Raw(RigPictures.TradeOffs(d, "trade-offs")).Raw("</figure></div></section>\n");
        page.Raw("<section><h2>Places</h2><div class=\"scroll\"><table class=\"places\"><thead><tr><th></th><th>Rig</th><th>Recorder</th><th class=\"num\">Coverage</th><th class=\"num\">Noise</th><th class=\"num\">To buy</th><th>Why</th></tr></thead><tbody>\n");
        foreach (var row in d.Ranked)
        {
            page.Add($"<tr><td class=\"num\">{row.Place}").Raw(row.TradeOff ? " <span class=\"star\" title=\"a best trade-off\">*</span>" : "").Add($"</td><td>{row.Rig}</td><td>{row.Recorder ?? "none"}</td>");
            page.Add($"<td class=\"num\">{(row.CoverageDegrees is { } c ? Invariant($"{c:0}°") : "never")}</td><td class=\"num\">{(row.NoiseDecibelsA is { } n ? Invariant($"{n:0.0} dBA") : "not known")}</td>");
            page.Add($"<td class=\"num\">{Cost(row)}</td><td>{row.Reason}</td></tr>\n");
        }

        page.Raw("</tbody></table></div></section>\n");
    }

    private static void Rejected(HtmlText page, ChoiceDocument d)
    {
        if (d.Rejected.Count == 0)
            return;
        page.Add($"<section><h2>Rejected: {d.Rejected.Count}</h2><div class=\"scroll\"><table><thead><tr><th>Mid</th><th>Side</th><th>Fails because</th></tr></thead><tbody>\n");
        foreach (var row in d.Rejected)
            page.Add($"<tr><td>{row.Mid}</td><td>{row.Side}</td><td>{string.Join("; ", row.FailsAt.Select(f => f.Text))}</td></tr>\n");
        page.Raw("</tbody></table></div></section>\n");
    }

    private static string Cost(ChoiceRow row) => row.ToBuy.Count == 0 ? "nothing"
        : row.Cost.Count == 0 ? "not known" : string.Join(" + ", row.Cost.Select(c => Invariant($"{c.Amount:0.##} {c.Currency}")));
}
