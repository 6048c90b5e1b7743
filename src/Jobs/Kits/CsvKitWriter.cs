using Athwart.Microphones.Equipment;
using nietras.SeparatedValues;

namespace Athwart.Jobs.Kits;

/// <summary>Writes a kit as three CSV files: commas between cells, decimal points, cells quoted where they must be.</summary>
internal static class CsvKitWriter
{
    /// <summary>The files by name; a kind of which there is nothing has its header all the same.</summary>
    public static IReadOnlyList<(string Name, string Text)> Write(Kit kit) =>
    [
        ("microphones.csv", Microphones(kit.Microphones)),
        ("recorders.csv", Table(kit.Recorders, r => r.Name, KitFields.Recorder)),
        ("protections.csv", Table(kit.Protections, p => p.Name, KitFields.Protection)),
    ];

    private static string Microphones(IReadOnlyList<Microphone> microphones)
    {
        var setting = KitFields.Setting.Where(f => f.Member is not null).ToList();
        var rows = microphones.SelectMany(m => m.Settings.Select(s => (string[])[m.Name, .. setting.Select(f => f.Write(s) ?? ""), .. KitFields.Microphone.Select(f => f.Write(m) ?? "")]));
        return Text(["name", .. setting.Select(f => f.Column), .. KitFields.Microphone.Select(f => f.Column)], rows);
    }

    private static string Table<T>(IReadOnlyList<T> items, Func<T, string> name, IReadOnlyList<KitField<T>> fields) =>
        Text(["name", .. fields.Select(f => f.Column)], items.Select(i => (string[])[name(i), .. fields.Select(f => f.Write(i) ?? "")]));

    private static string Text(string[] header, IEnumerable<string[]> rows)
    {
        using var writer = Sep.New(',').Writer(o => o with { WriteHeader = false, Escape = true }).ToText();
        foreach (var cells in rows.Prepend(header))
        {
            using var row = writer.NewRow();
            for (var i = 0; i < cells.Length; i++)
                row[i].Set(cells[i]);
        }

        return writer.ToString();
    }
}
