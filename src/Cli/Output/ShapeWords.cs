using System.Globalization;
using Athwart.Catalogue;
using Athwart.Jobs.Render;
using Athwart.Jobs.Shape;
using Athwart.Quantities;
using Spectre.Console;

namespace Athwart.Cli.Output;

/// <summary>Treatments, proposals and their figures in words and tables.</summary>
internal static class ShapeWords
{
    public static void List(Screen screen, IReadOnlyList<ListedTreatment> treatments)
    {
        var table = Table("treatment", "from", "steps", "for");
        foreach (var (treatment, kept) in treatments)
            table.AddRow(new Text(treatment.Name), new Text(kept ? "library" : "program"), new Text(treatment.Steps.Count.ToString(CultureInfo.InvariantCulture)), new Text(treatment.Note ?? ""));
        screen.Console.Write(table);
    }

    public static void Show(Screen screen, Treatment treatment)
    {
        screen.Line(treatment.Note is null ? treatment.Name : $"{treatment.Name}: {treatment.Note}");
        if (treatment.Rig is not null)
            screen.Line($"only for the rig '{treatment.Rig}'");
        for (var i = 0; i < treatment.Steps.Count; i++)
            screen.Line(string.Create(CultureInfo.InvariantCulture, $"{i + 1}. {treatment.Steps[i]}{(treatment.Steps[i].Note is { } note ? $" ({note})" : "")}\n   {treatment.Steps[i].Kind.Summary}"));
        if (treatment.Decode is { } decode)
            screen.Line(TreatmentDecodeWords.Describe(decode));
    }

    public static void Write(Screen screen, Treatment treatment, string file, bool overwrite)
    {
        TreatmentFiles.Write(file, treatment, overwrite);
        screen.Line($"{file}: '{treatment.Name}'. Keep it with: athwart shape keep {file} --library DIR");
    }

    public static void Proposals(Screen screen, ProposeReport report)
    {
        if (report.Proposals.Count == 0)
            screen.Line($"{report.Take}: no step is proposed.");
        foreach (var proposal in report.Proposals)
            screen.Line(string.Create(CultureInfo.InvariantCulture, $"{proposal.Number}. {proposal.Step}\n   {proposal.Reason}"));
        if (report.Accepted is { } accepted)
            screen.Line(string.Create(CultureInfo.InvariantCulture, $"{report.Take}: {accepted.Steps.Count} step(s) accepted; they come before any treatment. 'athwart shape undo' takes them back."));
        else if (report.Proposals.Count > 0)
            screen.Line("Accept them with --accept all, or some with --accept 1,2.");
    }

    public static void Settled(Screen screen, ShapedTake shaped)
    {
        foreach (var remark in shaped.Treated.Remarks)
            screen.Line($"{shaped.Take.Name}: {remark}.");
        foreach (var finding in shaped.Treated.Findings)
            screen.Line($"{shaped.Take.Name}: {finding.Message}");
    }

    public static void Tried(Screen screen, ShapedTake shaped, RenderResult result)
    {
        foreach (var finding in result.Findings)
            screen.Line($"{shaped.Take.Name}: {finding.Message}");
        screen.Line($"{result.Path}: '{shaped.Treated.Name}', side level {shaped.SideLevel}, peak {DecibelsFullScale.FromAmplitude(result.SamplePeak)}.");
    }

    public static void Figures(Screen screen, IReadOnlyList<StepFigures> figures)
    {
        var table = Table("after", "mid", "side", "correlation", "peak", "loudness");
        foreach (var f in figures)
        {
            var correlation = double.IsNaN(f.Correlation) ? "?" : string.Create(CultureInfo.InvariantCulture, $"{f.Correlation:0.00}");
            table.AddRow(new Text(f.After), new Text(f.Mid.ToString()), new Text(f.Side.ToString()), new Text(correlation), new Text(f.Peak.ToString()), new Text(new Loudness(f.LoudnessLufs).ToString()));
        }

        screen.Console.Write(table);
    }

    public static void Pictures(Screen screen, IReadOnlyList<string> files)
    {
        foreach (var file in files)
            screen.Line(file);
    }

    public static void History(Screen screen, IReadOnlyList<TreatmentHistoryEntry> entries)
    {
        if (entries.Count == 0)
            screen.Line("Nothing was changed yet.");
        foreach (var entry in entries)
            screen.Line(string.Create(CultureInfo.InvariantCulture, $"{entry.Date:yyyy-MM-dd HH:mm:ss}  {entry.What}{(entry.Undone ? "  (undone)" : "")}"));
    }

    private static Table Table(params string[] columns)
    {
        var table = new Table().Border(TableBorder.None);
        foreach (var column in columns)
            table.AddColumn(column);
        return table;
    }
}
