using System.Globalization;
using Athwart.Jobs.Cut;
using Spectre.Console;

namespace Athwart.Cli.Output;

/// <summary>Tables of cuts and proposals.</summary>
internal static class CutTables
{
    public static void Found(Screen screen, FindCutsReport report, string library)
    {
        foreach (var take in report.Takes)
        {
            if (take.Rule == 0)
                screen.Line($"{take.Take}: no rule fits; left alone.");
            if (take.AlreadyCut > 0)
                screen.Line(string.Create(CultureInfo.InvariantCulture, $"{take.Take}: {take.AlreadyCut} cut already and left out."));
            if (take.Picture.Length > 0)
                screen.Line($"{take.Take}: drawn in {take.Picture}");
        }

        Proposals(screen, report.Proposals);
        screen.Line(report.Proposals.Count == 0
            ? "Nothing is proposed."
            : string.Create(CultureInfo.InvariantCulture, $"{report.Proposals.Count} cut(s) proposed. Next: athwart cut approve --library {library} --session \"{report.Session}\" --all"));
    }

    public static void Approved(Screen screen, ApproveCutsReport report, bool refused)
    {
        foreach (var cut in report.Approved)
            screen.Line($"{cut.Take}: '{cut.Name}' is {(refused ? "refused" : "cut")}.");
        screen.Line(string.Create(CultureInfo.InvariantCulture, $"{report.Approved.Count} {(refused ? "refused" : "approved")}, {report.Left} left."));
    }

    public static void List(Screen screen, CutListDocument list)
    {
        Cuts(screen, list.Cuts);
        if (list.Proposals.Count == 0)
            return;
        screen.Line("Waiting to be approved:");
        Proposals(screen, list.Proposals);
    }

    public static void Cuts(Screen screen, IReadOnlyList<ListedCut> cuts)
    {
        if (cuts.Count == 0)
            return;
        var table = TakeTables.Plain("Take", "Cut", "From", "To", "Length", "Fades", "Loop", "Side level");
        foreach (var cut in cuts)
        {
            table.AddRow(
                Markup.Escape(cut.Take),
                Markup.Escape(cut.Name),
                Seconds(cut.FromFrame, cut.SampleRateHertz),
                Seconds(cut.ToFrame, cut.SampleRateHertz),
                Seconds(cut.ToFrame - cut.FromFrame, cut.SampleRateHertz),
                Fades(cut),
                cut.CrossfadeFrames > 0 ? Milliseconds(cut.CrossfadeFrames, cut.SampleRateHertz) + " ms cross-fade" : "",
                cut.SideLevelDecibels is { } level ? string.Create(CultureInfo.InvariantCulture, $"{level:0.##} dB") : "");
        }

        screen.Console.Write(table);
    }

    public static void Alike(Screen screen, IReadOnlyList<AlikeCut> cuts)
    {
        var table = TakeTables.Plain("Family", "Take", "Cut", "Length", "Most like", "Distance");
        foreach (var cut in cuts)
        {
            table.AddRow(
                Number(cut.Family),
                Markup.Escape(cut.Take),
                Markup.Escape(cut.Name),
                string.Create(CultureInfo.InvariantCulture, $"{cut.Seconds:0.000} s"),
                Markup.Escape(cut.Nearest),
                cut.NearestDecibels is { } distance ? string.Create(CultureInfo.InvariantCulture, $"{distance:0.0} dB") : "");
        }

        screen.Console.Write(table);
    }

    private static void Proposals(Screen screen, IReadOnlyList<CutProposal> proposals)
    {
        if (proposals.Count == 0)
            return;
        var table = TakeTables.Plain("No.", "Take", "Name", "What", "From", "To", "Length", "Stands out", "Remarks");
        foreach (var cut in proposals)
        {
            table.AddRow(
                Number(cut.Number),
                Markup.Escape(cut.Take),
                Markup.Escape(cut.Name),
                cut.What,
                Seconds(cut.FromFrame, cut.SampleRateHertz),
                Seconds(cut.ToFrame, cut.SampleRateHertz),
                Seconds(cut.ToFrame - cut.FromFrame, cut.SampleRateHertz),
                cut.HeightDecibels is { } height ? string.Create(CultureInfo.InvariantCulture, $"{height:0} dB ({cut.LoudestIn})") : "",
                Markup.Escape(string.Join(" ", cut.Remarks)));
        }

        screen.Console.Write(table);
    }

    private static string Fades(ListedCut cut)
    {
        if (cut.FadeInFrames == 0 && cut.FadeOutFrames == 0)
            return "";
        var shape = string.Equals(cut.FadeInCurve, cut.FadeOutCurve, StringComparison.Ordinal) ? cut.FadeInCurve : cut.FadeInCurve + ", " + cut.FadeOutCurve;
        return $"{Milliseconds(cut.FadeInFrames, cut.SampleRateHertz)}, {Milliseconds(cut.FadeOutFrames, cut.SampleRateHertz)} ms {shape}";
    }

    private static string Seconds(long frames, int rate) => string.Create(CultureInfo.InvariantCulture, $"{(double)frames / rate:0.000} s");

    private static string Milliseconds(long frames, int rate) => string.Create(CultureInfo.InvariantCulture, $"{1000.0 * frames / rate:0}");

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
