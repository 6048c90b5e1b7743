using System.Globalization;
using Athwart.Jobs.LineUp;
using Athwart.Metering.LineUp;
using Athwart.Quantities;
using Spectre.Console;
using static System.FormattableString;

namespace Athwart.Cli.Output;

/// <summary>What a line-up said, for people.</summary>
internal static class LineUpTables
{
    public static void Write(Screen screen, LineUpReport report)
    {
        var r = report.Result;
        screen.Line(report.Take);
        foreach (var line in LineUpWords.Of(report))
            screen.Line("  " + line);
        Directions(screen, r);
        Response(screen, r);
        foreach (var line in r.Assumptions.Concat(report.Changes))
            screen.Line("  " + line);
        foreach (var finding in r.Findings)
            Finding(screen, finding);
        if (report.Rig is { } rig)
            screen.Line($"Kept as a profile of '{rig}' and attached to the session.");
    }

    /// <summary>Profiles of a library, with what changed from one to the next.</summary>
    public static void Profiles(Screen screen, IReadOnlyList<RigProfileDocument> profiles)
    {
        if (profiles.Count == 0)
        {
            screen.Line("No rig has been measured into this library yet: 'athwart line-up --library … --rig NAME' keeps one.");
            return;
        }

        var table = TakeTables.Plain("Rig", "Measured", "Session", "Mid/side", "Gain offset", "Side late", "Noise mid/side");
        foreach (var p in profiles)
        {
            table.AddRow(((string[])
            [
                p.Rig ?? "", p.Measured ?? "", p.Session ?? "",
                Invariant($"{p.MidChannel}/{p.SideChannel}{(p.SideInverted is true ? ", inverted" : "")}"),
                Cell(p.GainOffsetDecibels, "dB", "+0.0;−0.0;0.0"), Cell(p.DelayFrames, "frames", "0.00;−0.00;0.00"),
                $"{Cell(p.MidNoise.DecibelsFullScaleA, "", "0;−0;0").Trim()} / {Cell(p.SideNoise.DecibelsFullScaleA, "dBFS(A)", "0;−0;0")}",
            ]).Select(Markup.Escape).ToArray());
        }

        screen.Console.Write(table);
        foreach (var (before, now) in profiles.Zip(profiles.Skip(1)).Where(p => string.Equals(p.First.Rig, p.Second.Rig, StringComparison.OrdinalIgnoreCase)))
        {
            foreach (var change in ProfilePictures.Changes(before, now))
                screen.Line($"  '{now.Rig}', {now.Measured}: {change}");
        }
    }

    private static string Cell(NumberDocument number, string unit, string format) =>
        number.Value is { } value ? $"{value.ToString(format, CultureInfo.InvariantCulture)} {unit}" : "cannot tell";

    private static void Directions(Screen screen, LineUpResult result)
    {
        if (result.Directions.Count == 0)
            return;
        var table = TakeTables.Plain("From", "Sounds", "Mid level", "Side over mid", "Side late");
        foreach (var d in result.Directions)
        {
            table.AddRow(
                Markup.Escape(d.Direction.Name),
                d.Sounds.ToString(CultureInfo.InvariantCulture),
                Cell(d.MidLevel, "dB", "0.0"),
                Cell(d.SideOverMid, "dB", "0.00"),
                Cell(d.Delay, "frames", "0.00"));
        }

        screen.Console.Write(table);
    }

    private static void Response(Screen screen, LineUpResult result)
    {
        var known = result.Response.Where(b => b.Mismatch.IsKnown).ToList();
        if (known.Count == 0)
            return;
        var table = TakeTables.Plain("Third octave", "Side against mid", "Correction of the side");
        foreach (var band in known)
            table.AddRow(Invariant($"{band.NominalHertz:0} Hz"), Cell(band.Mismatch, "dB", "0.0"), Invariant($"{band.CorrectionDecibels:+0.0;−0.0;0.0} dB"));
        screen.Console.Write(table);
    }

    private static void Finding(Screen screen, Finding finding)
    {
        screen.Line($"  {finding.Severity.ToString().ToLowerInvariant()}: {finding.Kind}: {finding.Message}");
        if (finding.Remedy.Length > 0)
            screen.Line("    → " + finding.Remedy);
    }

    private static string Cell(Estimate estimate, string unit, string format) => estimate.IsKnown
        ? Markup.Escape($"{estimate.Value.ToString(format, CultureInfo.InvariantCulture)} ± {estimate.Uncertainty.ToString("0.0#", CultureInfo.InvariantCulture)} {unit}")
        : "cannot tell";
}
