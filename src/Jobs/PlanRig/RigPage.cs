using System.Globalization;
using Athwart.Jobs.Pages;

namespace Athwart.Jobs.PlanRig;

/// <summary>One rig or several side by side, with every picture and line.</summary>
internal static class RigPage
{
    public static string Write(IReadOnlyList<RigPlan> plans)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        var page = new HtmlText(text);
        PlanPage.Begin(page, plans.Count == 1 ? plans[0].Document.Rig : "Rigs side by side", plans.Count == 1 ? "one" : "many");
        if (plans.Count > 1)
            Table(page, plans);
        foreach (var section in RigPictures.All)
        {
            page.Add($"<section><h2>{section.Heading}</h2><p class=\"say\">{section.Say}</p><div class=\"figures\">");
            for (var n = 0; n < plans.Count; n++)
            {
                page.Raw("<figure>").Raw(section.Draw(plans[n], FormattableString.Invariant($"{section.Id}-{n}")));
                page.Add($"<figcaption>{plans[n].Document.Rig}</figcaption>").Raw("</figure>");
            }

            page.Raw("</div></section>\n");
        }

        if (plans.Count == 1)
            Table(page, plans);
        PlanPage.Lines(page, "Not known", [.. plans.SelectMany(p => p.Document.NotKnown).Distinct(StringComparer.Ordinal)], "");
        PlanPage.Lines(page, "Take care", [.. plans.SelectMany(p => p.Document.Cautions).Distinct(StringComparer.Ordinal)], "care");
        PlanPage.End(page);
        return text.ToString();
    }

    private static void Table(HtmlText page, IReadOnlyList<RigPlan> plans)
    {
        var facts = plans.Select(p => RigFacts.Of(p.Document)).ToList();
        page.Raw("<section><h2>In figures</h2><div class=\"scroll\"><table><thead><tr><td></td>");
        foreach (var plan in plans)
            page.Add($"<th scope=\"col\">{plan.Document.Rig}</th>");
        page.Raw("</tr></thead>\n");
        foreach (var group in facts.SelectMany(f => f).Select(f => f.Group).Distinct(StringComparer.Ordinal))
        {
            page.Add($"<tbody><tr><th class=\"group\" scope=\"rowgroup\" colspan=\"{plans.Count + 1}\">{group}</th></tr>");
            foreach (var label in facts.SelectMany(f => f).Where(f => string.Equals(f.Group, group, StringComparison.Ordinal)).Select(f => f.Label).Distinct(StringComparer.Ordinal))
            {
                page.Add($"<tr><th scope=\"row\">{label}</th>");
                foreach (var list in facts)
                    page.Add($"<td>{string.Join("; ", list.Where(f => string.Equals(f.Group, group, StringComparison.Ordinal) && string.Equals(f.Label, label, StringComparison.Ordinal)).Select(f => f.Value))}</td>");
                page.Raw("</tr>\n");
            }

            page.Raw("</tbody>");
        }

        page.Raw("</table></div></section>\n");
    }
}
