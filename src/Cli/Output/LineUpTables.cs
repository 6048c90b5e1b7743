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
        screen.Line(r.FirstIsMid.IsKnown
            ? Invariant($"  mid is channel {report.MidChannel}, side is channel {report.SideChannel} (probability {r.FirstIsMid.Probability:0.000})")
            : "  mid and side: cannot tell: " + r.FirstIsMid.Doubt);
        screen.Line(r.SideInverted.IsKnown
            ? Invariant($"  side's positive lobe points {(r.SideInverted.Answer ? "right: INVERTED" : "left, as it should")} (probability {r.SideInverted.Probability:0.000})")
            : "  polarity: cannot tell: " + r.SideInverted.Doubt);
        Number(screen, "gain offset, side over mid", r.GainOffset, "dB", "+0.00;−0.00;0.00");
        Number(screen, "side late by", r.Delay, "frames", "0.00;−0.00;0.00");
        Number(screen, "side ahead of mid by", r.SpacingForward.IsKnown ? Millimetres(r.SpacingForward) : r.SpacingForward, "mm", "0;−0;0");
        Number(screen, "side to the left of mid by", r.SpacingLeft.IsKnown ? Millimetres(r.SpacingLeft) : r.SpacingLeft, "mm", "0;−0;0");
        Number(screen, "side points to", r.SideAngle, "degrees left of the front", "0.0;−0.0;0.0");
        Number(screen, "mid's pattern A, as heard", r.MeasuredMidPattern, "", "0.00");
        Noise(screen, "mid", report.MidNoise, report.MidNoiseSoundLevel);
        Noise(screen, "side", report.SideNoise, report.SideNoiseSoundLevel);
        Directions(screen, r);
        Response(screen, r);
        foreach (var line in r.Assumptions.Concat(report.Changes))
            screen.Line("  " + line);
        foreach (var finding in r.Findings)
            Finding(screen, finding);
        if (report.Rig is { } rig)
            screen.Line($"Kept as a profile of '{rig}' and attached to the session.");
    }

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

    private static void Number(Screen screen, string what, Estimate estimate, string unit, string format) => screen.Line(estimate.IsKnown
        ? $"  {what} {estimate.Value.ToString(format, CultureInfo.InvariantCulture)} ± {estimate.Uncertainty.ToString("0.##", CultureInfo.InvariantCulture)} {unit}".TrimEnd()
        : $"  {what}: cannot tell: {estimate.Doubt}");

    private static Estimate Millimetres(Estimate metres) => Estimate.Of(metres.Value * 1000, metres.Uncertainty * 1000);

    private static void Noise(Screen screen, string role, ChannelNoiseMeasure noise, double? soundLevel)
    {
        if (!noise.Level.IsKnown)
        {
            screen.Line($"  noise of the {role}: cannot tell: {noise.Level.Doubt}");
            return;
        }

        var pressure = soundLevel is { } level ? Invariant($", {level:0.0} dB(A) of sound") : "";
        var low = noise.LowestHertz.IsKnown ? Invariant($"; the sounds stand out of it from {noise.LowestHertz.Value:0} Hz up") : "";
        screen.Line(Invariant($"  noise of the {role} {noise.Level.Value:0.0} dBFS, {noise.WeightedLevel.Value:0.0} dBFS(A){pressure}{low}"));
    }

    private static string Cell(Estimate estimate, string unit, string format) => estimate.IsKnown
        ? Markup.Escape($"{estimate.Value.ToString(format, CultureInfo.InvariantCulture)} ± {estimate.Uncertainty.ToString("0.0#", CultureInfo.InvariantCulture)} {unit}")
        : "cannot tell";
}
