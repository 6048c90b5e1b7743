using Athwart.Microphones.Equipment;
using nietras.SeparatedValues;

namespace Athwart.Jobs.Kits;

/// <summary>One kind of thing of a kit as a table of plain text: what is edited by hand is what a CSV holds.</summary>
/// <param name="Kind">'microphone', 'recorder' or 'protection'.</param>
/// <param name="Columns">The headers; the first is the name.</param>
/// <param name="Rows">The cells; a microphone has a row for each of its settings.</param>
public sealed record KitTable(string Kind, IReadOnlyList<string> Columns, IReadOnlyList<IReadOnlyList<string>> Rows)
{
    /// <summary>The three tables of a kit.</summary>
    public static IReadOnlyList<KitTable> Of(Kit kit)
    {
        ArgumentNullException.ThrowIfNull(kit);
        return [.. CsvKitWriter.Write(kit).Zip((string[])["microphone", "recorder", "protection"], (file, kind) => Read(kind, file.Text))];
    }

    /// <summary>The rows that are one thing: those of its name.</summary>
    public IReadOnlyList<IReadOnlyList<string>> RowsOf(string name) => [.. Rows.Where(r => string.Equals(r[0], name, StringComparison.Ordinal))];

    /// <summary>The table with these rows only, as CSV.</summary>
    public static string Csv(IReadOnlyList<string> columns, IEnumerable<IReadOnlyList<string>> rows)
    {
        ArgumentNullException.ThrowIfNull(columns);
        using var writer = Sep.New(',').Writer(o => o with { WriteHeader = false, Escape = true }).ToText();
        foreach (var cells in rows.Prepend(columns))
        {
            using var row = writer.NewRow();
            for (var i = 0; i < cells.Count; i++)
                row[i].Set(cells[i]);
        }

        return writer.ToString();
    }

    private static KitTable Read(string kind, string csv)
    {
        using var reader = Sep.New(',').Reader(o => o with { HasHeader = false, Unescape = true }).FromText(csv);
        var rows = new List<IReadOnlyList<string>>();
        foreach (var row in reader)
            rows.Add(Cells(row));
        return new(kind, rows[0], rows[1..]);
    }

    private static string[] Cells(SepReader.Row row)
    {
        var cells = new string[row.ColCount];
        for (var i = 0; i < cells.Length; i++)
            cells[i] = row[i].ToString();
        return cells;
    }
}
