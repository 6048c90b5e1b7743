using System.Globalization;
using Athwart.Jobs.PlanRig;
using Spectre.Console;
using static System.FormattableString;

namespace Athwart.Cli.Output;

/// <summary>Rigs and choices as text.</summary>
internal static class RigTables
{
    private const int RejectedShown = 12;

    public static void Show(Screen screen, RigDocument d)
    {
        screen.Line(d.Rig);
        screen.Line("  " + d.SideLevel.How);
        Facts(screen, RigFacts.Of(d));
        Sources(screen, d);
        Remarks(screen, "Not known", d.NotKnown);
        Remarks(screen, "Take care", d.Cautions);
    }

    public static void Compare(Screen screen, IReadOnlyList<RigDocument> documents)
    {
        var facts = documents.Select(RigFacts.Of).ToList();
        var table = TakeTables.Plain(["", .. documents.Select(d => d.Rig)]);
        foreach (var (group, label) in facts.SelectMany(f => f).Select(f => (f.Group, f.Label)).Distinct())
            table.AddRow([Markup.Escape(label), .. facts.Select(list => Markup.Escape(string.Join("\n", list.Where(f => string.Equals(f.Group, group, StringComparison.Ordinal) && string.Equals(f.Label, label, StringComparison.Ordinal)).Select(f => f.Value))))]);
        screen.Console.Write(table);
        Remarks(screen, "Not known", [.. documents.SelectMany(d => d.NotKnown).Distinct(StringComparer.Ordinal)]);
    }

    public static void Choice(Screen screen, ChoiceDocument d, int most)
    {
        Remarks(screen, "Asked", d.Asked);
        Remarks(screen, "To know", d.Remarks);
        if (d.Ranked.Count == 0)
        {
            screen.Line();
            screen.Line("No pair of the kit does all that. What each fails at is below; ask for less, or add microphones with 'kit add'.");
        }
        else
        {
            Ranked(screen, d, most);
        }

        Rejected(screen, d);
        if (d.Ranked.Count > 0)
        {
            screen.Line();
            screen.Line($"Next: athwart rig show --rig \"{d.Ranked[0].Rig}\"{(d.Ranked[0].Recorder is { } r ? $" --recorder \"{r}\"" : "")}, with the same kit; or rig compare, rig sheet.");
        }
    }

    private static void Ranked(Screen screen, ChoiceDocument d, int most)
    {
        var table = TakeTables.Plain("", "Rig", "Recorder", "Coverage", "Noise", "To buy", "Why");
        foreach (var row in d.Ranked.Take(most))
        {
            table.AddRow(
                row.Place.ToString(CultureInfo.InvariantCulture) + (row.TradeOff ? " *" : ""),
                Markup.Escape(row.Rig),
                Markup.Escape(row.Recorder ?? "none"),
                row.CoverageDegrees is { } c ? Invariant($"{c:0}°") : "never",
                row.NoiseDecibelsA is { } n ? Invariant($"{n:0.0} dBA") : "–",
                Markup.Escape(row.Cost.Count == 0 ? (row.ToBuy.Count == 0 ? "nothing" : "–") : string.Join(" + ", row.Cost.Select(c => Invariant($"{c.Amount:0.##} {c.Currency}")))),
                Markup.Escape(row.Reason));
        }

        screen.Console.Write(table);
        if (d.Ranked.Count > most)
            screen.Line($"  and {d.Ranked.Count - most} more; see --top or --json");
        screen.Line("  * a best trade-off: no other pair is as good in cost, noise and coverage together");
    }

    private static void Rejected(Screen screen, ChoiceDocument d)
    {
        if (d.Rejected.Count == 0)
            return;
        screen.Line();
        screen.Line(Invariant($"Rejected: {d.Rejected.Count}"));
        // What most fail at first: that is where asking for less helps.
        foreach (var group in d.Rejected.SelectMany(r => r.FailsAt).GroupBy(f => f.Constraint, StringComparer.Ordinal).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal))
            screen.Line(Invariant($"  {group.Count()} by {group.Key}"));
        foreach (var row in Nearest(d))
            screen.Line($"  {row.Mid} + {row.Side}: {string.Join("; ", row.FailsAt.Select(f => f.Text))}");
        if (d.Rejected.Count > RejectedShown)
            screen.Line($"  and {d.Rejected.Count - RejectedShown} more; see --json");
    }

    // Those that fail at one thing, and by little, are worth a second look; amounts compare within one constraint only.
    private static IEnumerable<RejectedRow> Nearest(ChoiceDocument d) => d.Rejected
        .OrderBy(r => r.FailsAt.Count).ThenBy(r => r.FailsAt[0].Constraint, StringComparer.Ordinal).ThenBy(r => r.FailsAt[0].By ?? double.MaxValue).Take(RejectedShown);

    private static void Facts(Screen screen, IReadOnlyList<RigFact> facts)
    {
        foreach (var group in facts.GroupBy(f => f.Group, StringComparer.Ordinal))
        {
            screen.Line();
            screen.Line(group.Key);
            foreach (var fact in group)
                screen.Line($"  {fact.Label,-34} {fact.Value}");
        }
    }

    private static void Sources(Screen screen, RigDocument d)
    {
        screen.Line();
        screen.Line("Where sources ahead land (positive is left; the image lies between loudspeakers at ±30°)");
        var table = TakeTables.Plain("Source at", "Left − right", "Image", "7.5 %/dB", "");
        foreach (var s in d.Sources.Where(s => Math.Abs(s.AzimuthDegrees) <= 90))
        {
            table.AddRow(
                Invariant($"{s.AzimuthDegrees:0}°"),
                s.LeftMinusRightDecibels is { } l ? Invariant($"{l:+0.0;−0.0;0.0} dB") : "one side alone",
                s.ImageDegrees is { } i ? Invariant($"{i:+0.0;−0.0;0.0}°") : "–",
                s.ImagePercent is { } p ? Invariant($"{p:+0;−0;0} %") : "–",
                string.Join(", ", ((string?[])[s.FullySideways ? "fully to one side" : null, s.OppositePolarity ? "left and right opposed" : null, s.WrongSide ? "on the wrong side" : null]).OfType<string>()));
        }

        screen.Console.Write(table);
        screen.Line("  Image by the tangent law; 7.5 % per dB is a figure from memory.");
    }

    private static void Remarks(Screen screen, string heading, IReadOnlyList<string> lines)
    {
        if (lines.Count == 0)
            return;
        screen.Line();
        screen.Line(heading);
        foreach (var line in lines)
            screen.Line("  " + line);
    }
}
