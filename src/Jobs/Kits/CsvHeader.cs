namespace Athwart.Jobs.Kits;

/// <summary>Which cell of a row holds which column.</summary>
internal sealed class CsvHeader
{
    private readonly Dictionary<string, int> _cells;
    private readonly string[] _written;

    private CsvHeader(Dictionary<string, int> cells, string[] written) => (_cells, _written) = (cells, written);

    /// <summary>Matches a header to the columns of its kind; whatever does not fit becomes a fault.</summary>
    public static CsvHeader Match(CsvTable table, CsvKind kind, KitReading reading)
    {
        var cells = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var i = 0; i < table.Header.Count; i++)
            Match(table, kind, i, cells, reading);
        foreach (var needed in new[] { "name", kind == CsvKind.Microphones ? "pattern" : "name" }.Distinct(StringComparer.Ordinal).Where(n => !cells.ContainsKey(n)))
            reading.Fault(new(table.File, 1), "", $"There is no column '{needed}'.", $"A file of {kind.Things} needs it.");
        return new(cells, [.. table.Header]);
    }

    /// <summary>Where a column stands, or null when the file has none.</summary>
    public int? IndexOf(string column) => _cells.TryGetValue(column, out var index) ? index : null;

    /// <summary>The header as the file writes it; the column's own name when the file has none.</summary>
    public string Written(string column) => IndexOf(column) is { } index ? _written[index].Trim() : column;

    private static void Match(CsvTable table, CsvKind kind, int index, Dictionary<string, int> cells, KitReading reading)
    {
        var written = table.Header[index].Trim();
        var plain = HeaderText.Plain(written);
        var place = new KitPlace(table.File, 1, HeaderText.Short(written));
        if (written.StartsWith('#') || (plain.Length == 0 && table.Rows.All(r => string.IsNullOrWhiteSpace(r.Cell(index)))))
            return;
        if (plain.Length == 0)
            reading.Fault(new(table.File, 1), "", $"Cell {index + 1} of the header is empty, but the column is not.", "Name the column, or empty it.");
        else if (kind.Columns.FirstOrDefault(c => HeaderText.Plain(c.Name).Equals(plain, StringComparison.Ordinal)) is not { } column)
            Unknown(kind, plain, place, reading);
        else if (!cells.TryAdd(column.Name, index))
            reading.Fault(place, "", "The column comes twice.", "Keep one.");
    }

    private static void Unknown(CsvKind kind, string plain, KitPlace place, KitReading reading)
    {
        if (kind.Begins(plain) is not { } column)
        {
            reading.Fault(place, "", $"A file of {kind.Things} has no such column; the nearest is '{HeaderText.Nearest(plain, kind.Columns.Select(c => c.Name))}'.", "Rename it, or begin its name with # to leave the column out.");
            return;
        }

        var names = string.Join(" or ", kind.Columns.Where(c => c.Figure.Equals(column.Figure, StringComparison.Ordinal)).Select(c => $"'{c.Name}'"));
        var unit = plain[HeaderText.Plain(column.Figure).Length..].Trim();
        reading.Fault(
            place,
            "",
            unit.Length == 0 ? $"The column does not say its unit: {names} is known." : $"The unit '{unit}' is not known for '{column.Figure}': {names} is.",
            column.Unit.Length == 0 ? $"Name it {names}." : "Convert the values and name the column so.");
    }
}
