using System.Globalization;
using Athwart.Jobs.Kits;
using Athwart.Microphones.Equipment;
using Spectre.Console;
using Recorder = Athwart.Microphones.Equipment.Recorder;

namespace Athwart.Cli.Output;

/// <summary>Tables of the kit, no wider than 100 columns; what is not known is an en dash.</summary>
internal static class KitTables
{
    private const string NotKnown = "–";

    // Longer names are broken into lines.
    private const int NameWidth = 22;
    private const int PatternWidth = 14;

    public static void Write(Screen screen, KitReport report)
    {
        if (report.Kit.Microphones.Count + report.Kit.Recorders.Count + report.Kit.Protections.Count == 0)
        {
            screen.Line("The kit is empty. Next: athwart kit import microphones.csv --library DIR, or athwart kit import --demo --library DIR");
            return;
        }

        Microphones(screen, report.Kit.Microphones);
        Recorders(screen, report.Kit.Recorders);
        Protections(screen, report.Kit.Protections);
        screen.Line($"Owned: {PriceTotals.Text(report.Owned)}. Considered: {PriceTotals.Text(report.Considered)}.{(Mixed(report) ? " Currencies are never added: no rate of exchange is known." : "")}");
        Gaps(screen, report.Gaps);
        foreach (var shortfall in report.Shortfalls)
            screen.Line(shortfall);
        foreach (var (item, remark) in report.Unusual)
            screen.Line($"unusual: {item}: {remark}");
    }

    public static void Imported(Screen screen, KitImportReport report)
    {
        foreach (var fault in report.Faults)
            screen.Error(fault.ToString());
        if (report.Faults.Count > 0)
            screen.Error(string.Create(CultureInfo.InvariantCulture, $"Nothing was kept: {report.Faults.Count} {(report.Faults.Count == 1 ? "fault" : "faults")}."));
        if (report.AlreadyThere.Count > 0)
            screen.Error($"Nothing was kept: the kit has {string.Join(", ", report.AlreadyThere.Select(n => $"'{n}'"))} already. Replace with --replace, or give other names.");
        if (!report.Done)
            return;
        foreach (var fault in report.Unusual)
            screen.Line($"unusual: {fault}");
        if (report.Added.Count > 0)
            screen.Line($"added: {string.Join(", ", report.Added)}");
        if (report.Replaced.Count > 0)
            screen.Line($"replaced: {string.Join(", ", report.Replaced)}");
    }

    private static void Microphones(Screen screen, IReadOnlyList<Microphone> microphones)
    {
        if (microphones.Count == 0)
            return;
        var table = Table("Microphone", "Pattern", "mV/Pa", "dBA", "Max dB", "Hz", "g", "Price", "Have");
        table.Columns[1].Width = PatternWidth;
        foreach (var microphone in microphones)
        {
            for (var i = 0; i < microphone.Settings.Count; i++)
            {
                var setting = microphone.Settings[i];
                string[] sound = [Pattern(setting), Number(setting.SensitivityMillivoltsPerPascal), Number(setting.EquivalentNoiseDecibelsA), Number(setting.MaximumLevelDecibels), Band(setting)];
                Row(table, i == 0
                    ? [microphone.Name, .. sound, Number(microphone.WeightGrams), Cost(microphone.Price), Have(microphone.Owned, microphone.Count)]
                    : ["", .. sound, "", "", ""]);
            }
        }

        screen.Console.Write(table);
    }

    private static void Recorders(Screen screen, IReadOnlyList<Recorder> recorders)
    {
        if (recorders.Count == 0)
            return;
        var table = Table("Recorder", "Inputs", "EIN dBu", "Max dBu", "Gain dB", "mA", "h", "Decodes", "Price", "Have");
        foreach (var r in recorders)
        {
            Row(table,
            [
                r.Name, Number(r.InputCount), Number(r.EquivalentInputNoiseDecibelsU), Number(r.MaximumInputDecibelsU), FromTo(r.MinimumGainDecibels, r.MaximumGainDecibels, Number),
                Number(r.PhantomMilliamperes), Number(r.BatteryHours), r.DecodesForMonitoring is { } decodes ? decodes ? "yes" : "no" : NotKnown, Cost(r.Price), Have(r.Owned, 1),
            ]);
        }

        screen.Console.Write(table);
    }

    private static void Protections(Screen screen, IReadOnlyList<WindProtection> protections)
    {
        if (protections.Count == 0)
            return;
        var table = Table("Wind protection", "Inner mm", "g", "Low loss dB", "Price", "Have");
        foreach (var p in protections)
            Row(table, [p.Name, $"{Number(p.InnerLengthMillimetres)} × {Number(p.InnerDiameterMillimetres)}", Number(p.WeightGrams), Number(p.LowFrequencyLossDecibels), Cost(p.Price), Have(p.Owned, 1)]);
        screen.Console.Write(table);
    }

    // One line for each pattern of each thing, however much of it is missing.
    private static void Gaps(Screen screen, IReadOnlyList<KitGap> gaps)
    {
        foreach (var thing in gaps.GroupBy(g => (g.Item, g.Label)))
        {
            screen.Line($"{thing.Key.Item}{(thing.Key.Label.Length > 0 ? $", {thing.Key.Label}" : "")}:");
            foreach (var consequence in thing.GroupBy(g => g.Consequence, StringComparer.Ordinal))
                screen.Line($"  {string.Join(", ", consequence.Select(g => g.Figure))} not known: {consequence.Key}");
        }
    }

    private static Table Table(params string[] columns)
    {
        var table = TakeTables.Plain(columns);
        table.Columns[0].Width = NameWidth;
        foreach (var column in table.Columns)
            column.Padding = new Padding(0, 0, 1, 0);
        return table;
    }

    private static void Row(Table table, string[] cells) => table.AddRow(cells.Select(Markup.Escape).ToArray());

    private static bool Mixed(KitReport report) => report.Owned.Concat(report.Considered).DistinctBy(p => p.Currency, StringComparer.Ordinal).Count() > 1;

    private static string Pattern(MicrophoneSetting setting) =>
        setting.Label.Length == 0 || setting.Label.Equals(setting.Pattern.Name, StringComparison.OrdinalIgnoreCase) ? setting.Pattern.Name : $"{setting.Label} ({setting.Pattern.Name})";

    private static string Band(MicrophoneSetting setting) => FromTo(setting.LowHertz, setting.HighHertz, Short);

    private static string FromTo(double? low, double? high, Func<double?, string> text) => low is null && high is null ? NotKnown : $"{text(low)} to {text(high)}";

    private static string Short(double? hertz) => hertz >= 1000 ? Number(hertz / 1000) + "k" : hertz is null ? NotKnown : Number(hertz);

    private static string Number(double? value) => value is { } known ? known.ToString("0.##", CultureInfo.InvariantCulture) : NotKnown;

    private static string Cost(Price? price) => price?.ToString() ?? NotKnown;

    private static string Have(bool owned, int count)
    {
        var word = owned ? "owned" : "considered";
        return count == 1 ? word : string.Create(CultureInfo.InvariantCulture, $"{count} {word}");
    }
}
