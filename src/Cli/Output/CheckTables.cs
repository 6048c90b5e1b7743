using System.Globalization;
using Athwart.Jobs.CheckTakes;
using Athwart.Jobs.Directions;
using Athwart.Quantities;
using Spectre.Console;

namespace Athwart.Cli.Output;

/// <summary>One table over all takes, then what was found in each.</summary>
internal static class CheckTables
{
    /// <summary>How many findings of one take are printed; the JSON has them all.</summary>
    private const int FindingsShown = 12;

    public static void Write(Screen screen, CheckReport report)
    {
        if (report.Takes.Count > 0)
            Overview(screen, report);
        foreach (var check in report.Takes)
            Details(screen, check);
        TakeTables.Refused(screen, report.Refused);
    }

    private static void Overview(Screen screen, CheckReport report)
    {
        var table = TakeTables.Plain("Take", "Length", "Mid peak", "Side peak", "Side − mid", "L/R corr.", "Lowest", "Loudness", "True peak", "Verdict");
        foreach (var check in report.Takes)
            table.AddRow(Cells(check).Select(Markup.Escape).ToArray());
        screen.Console.Write(table);
        screen.Line($"Left and right are predicted at a side level of {report.SideLevel}. Side − mid: how much louder the side is, on the whole.");
        screen.Line("L/R corr.: how alike left and right are, from +1 (mono) over 0 (wide) to −1 (opposed, lost in mono); lowest is over any 0.4 s.");
        screen.Line("Each finding says what it is, where, how bad, and after the arrow what to do. 'athwart explain KIND' says more, with a picture.");
    }

    private static string[] Cells(TakeCheck check)
    {
        var m = check.Measures;
        var hasSide = check.Roles.SideChannel is not null;
        return
        [
            check.Take.Name,
            TakeTables.Seconds(check.Take),
            m.Mid.SamplePeak.ToString(),
            hasSide ? m.Side.SamplePeak.ToString() : "none",
            hasSide && !double.IsNaN(m.SideMinusMid.Value) ? m.SideMinusMid.ToString() : "none",
            Correlation(m.Correlation.Whole),
            Correlation(m.Correlation.Worst),
            m.Loudness.Integrated.ToString(),
            new DecibelsFullScale(Math.Max(m.Left.TruePeak.Value, m.Right.TruePeak.Value)).ToString().Replace("dBFS", "dBTP", StringComparison.Ordinal),
            Verdict(check),
        ];
    }

    private static string Correlation(double value) =>
        double.IsNaN(value) ? "none" : value.ToString("+0.00;−0.00;0.00", CultureInfo.InvariantCulture);

    private static string Verdict(TakeCheck check) => check.Worst switch
    {
        FindingSeverity.Fault => "FAULT",
        FindingSeverity.Caution => "caution",
        _ => "sound",
    };

    private static void Details(Screen screen, TakeCheck check)
    {
        screen.Line();
        screen.Line(check.Take.Name);
        foreach (var evidence in check.Take.Evidence)
            screen.Line("  joined: " + evidence);
        screen.Line("  roles: " + check.Roles.Explanation + (check.Roles.SideInverted ? "; the side is turned over" : ""));
        if (check.Rig is { } rig)
            screen.Line($"  rig: '{rig.Rig}' as measured on {rig.Measured}");
        if (check.Direction is { } trail)
            screen.Line("  direction: " + DirectionWords.Of(trail));
        if (check.Width is { } width)
            screen.Line("  width: " + WidthWords.Of(width, check.Take.SampleRateHertz));
        if (check.Direction is not null)
            screen.Line("  polarity: " + PolarityDocument.From(check).Words);
        if (check.Findings.Count == 0)
            screen.Line("  nothing was found.");
        foreach (var finding in check.Findings.Take(FindingsShown))
            Finding(screen, finding, check.Take.SampleRateHertz);
        if (check.Findings.Count > FindingsShown)
            screen.Line(string.Create(CultureInfo.InvariantCulture, $"  and {check.Findings.Count - FindingsShown} more; see --json"));
    }

    private static void Finding(Screen screen, Finding finding, int rate)
    {
        var where = finding.Range is { } range
            ? string.Create(CultureInfo.InvariantCulture, $" at {range.From.At(rate).TotalSeconds:0.000}–{range.To.At(rate).TotalSeconds:0.000} s")
            : "";
        screen.Line($"  {finding.Severity.ToString().ToLowerInvariant()}: {finding.Kind}{where}: {finding.Message}");
        if (finding.Remedy.Length > 0)
            screen.Line("    → " + finding.Remedy);
    }
}
