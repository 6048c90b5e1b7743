using Athwart.Figures.Plots;

namespace Athwart.Jobs.Evidences;

/// <summary>A take among the others it was checked with.</summary>
internal static class SiblingsView
{
    public static string Draw(EvidenceCase found)
    {
        var takes = found.Siblings.Where(s => double.IsFinite(s.SideOverMid)).ToList();
        var median = found.Finding.Evidence.FirstOrDefault(e => e.Name.StartsWith("median", StringComparison.Ordinal));
        var ticks = takes.Select((t, i) => ((double)i, takes.Count <= 12 ? Short(t.Take) : "")).ToList();
        var plot = new Plot("Side against mid, take by take", new("", -0.6, takes.Count - 0.4, false, ticks), PlotAxis.Around("dB", takes.Select(t => t.SideOverMid), 1, plus: true))
        {
            Dots = [new("this take", "side", Dots(mine: true)), new("the others", "mid", Dots(mine: false))],
            Guides = median is null ? [] : [new(median.Value, false, "what is usual")],
        };
        return PlotFigure.Draw(EvidencePicture.Label(found), plot);

        List<PlotDot> Dots(bool mine) => [.. takes.Select((t, i) => (t, i)).Where(x => string.Equals(x.t.Take, found.Take, StringComparison.Ordinal) == mine).Select(x => new PlotDot(x.i, x.t.SideOverMid, Label: mine ? Short(x.t.Take) : ""))];
    }

    private static string Short(string name) => name.Length <= 9 ? name : name[..8] + "…";
}
