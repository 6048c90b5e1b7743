using System.Globalization;
using Athwart.Microphones.Equipment;
using Athwart.Microphones.Patterns;

namespace Athwart.Jobs.Kits;

/// <summary>Reads a CSV of microphones, recorders or wind protections; every fault of the file in one go.</summary>
internal sealed class CsvReader
{
    private static readonly string[] Unknown = ["", "–", "—", "-", "?"];

    private readonly CsvTable _table;
    private readonly CsvHeader _header;
    private readonly KitReading _reading;
    private readonly NumberNotation _notation;

    private CsvReader(CsvTable table, CsvKind kind, KitReading reading)
    {
        (_table, _reading) = (table, reading);
        _header = CsvHeader.Match(table, kind, reading);
        _notation = NumberNotation.Of(table.Delimiter, kind.Columns.Where(c => c.Unit.Length > 0 || c.Name is "price" or "count").SelectMany(Cells));
    }

    public static void Read(string file, string text, KitReading reading)
    {
        if (CsvTable.Parse(file, text, reading) is not { } table)
            return;
        if (CsvKind.Tell(table.Header) is not { } kind)
        {
            reading.Fault(
                new(file, 1),
                "",
                "The header does not tell what the file holds.",
                $"Begin with a row of column names: {string.Join(", ", CsvKind.All.Select(k => $"{k.Things} are told by '{k.Told}'"))}.");
            return;
        }

        new CsvReader(table, kind, reading).Read(kind);
    }

    private void Read(CsvKind kind)
    {
        foreach (var row in _table.Rows.Where(r => r.Cells.Length > _table.Header.Count && r.Cells.Skip(_table.Header.Count).Any(c => c.Length > 0)))
            Fault(row, null, string.Create(CultureInfo.InvariantCulture, $"The row has {row.Cells.Length} cells, but the header has {_table.Header.Count}."), "Put a text or number that holds the sign between cells into quotation marks.");
        if (kind == CsvKind.Microphones)
            ReadMicrophones();
        else if (kind == CsvKind.Recorders)
            _reading.Recorders.AddRange(_table.Rows.Select(r => Simple(r, new Recorder { Name = Name(r) }, KitFields.Recorder)));
        else
            _reading.Protections.AddRange(_table.Rows.Select(r => Simple(r, new WindProtection { Name = Name(r) }, KitFields.Protection)));
    }

    // Rows of one name are the patterns of one body, wherever they stand.
    private void ReadMicrophones()
    {
        foreach (var rows in _table.Rows.GroupBy(Name, StringComparer.OrdinalIgnoreCase))
        {
            var all = rows.ToList();
            var settings = all.ConvertAll(ReadSetting);
            var microphone = new Microphone { Name = Name(all[0]), Settings = settings };
            foreach (var field in KitFields.Microphone)
                microphone = Apply(all.Find(r => !IsUnknown(Cell(r, field.Column), field.Type)) ?? all[0], microphone, field);
            foreach (var row in all.Skip(1))
                Agree(all, row);
            _reading.Microphones.Add(new(microphone, (setting, figure) => Place(setting is { } s ? all[s] : all[0], ColumnOf(figure))));
        }
    }

    private MicrophoneSetting ReadSetting(CsvRow row)
    {
        var setting = new MicrophoneSetting { Pattern = FirstOrderPattern.Omni };
        if (_header.IndexOf("pattern") is not null && string.IsNullOrWhiteSpace(Cell(row, "pattern")))
            Fault(row, "pattern", "The pattern is missing, and nothing is known of a microphone without it.", char.ToUpperInvariant(PatternNames.Remedy[0]) + PatternNames.Remedy[1..] + ".");
        foreach (var field in KitFields.Setting)
            setting = Apply(row, setting, field);
        return setting;
    }

    private void Agree(List<CsvRow> rows, CsvRow row)
    {
        foreach (var field in KitFields.Microphone)
        {
            var cell = Cell(row, field.Column);
            var first = rows.Find(r => !IsUnknown(Cell(r, field.Column), field.Type));
            if (!IsUnknown(cell, field.Type) && first is not null && !Cell(first, field.Column).Trim().Equals(cell.Trim(), StringComparison.Ordinal))
            {
                Fault(
                    row,
                    field.Column,
                    string.Create(CultureInfo.InvariantCulture, $"Row {first.Number} says '{HeaderText.Short(Cell(first, field.Column).Trim())}' of the same microphone, and this one '{HeaderText.Short(cell.Trim())}'."),
                    "Rows of one name are the patterns of one body and agree in this; give another microphone another name.");
            }
        }
    }

    private ReadItem<T> Simple<T>(CsvRow row, T item, IReadOnlyList<KitField<T>> fields)
    {
        foreach (var field in fields)
            item = Apply(row, item, field);
        return new(item, (_, figure) => Place(row, ColumnOf(figure)));
    }

    private T Apply<T>(CsvRow row, T item, KitField<T> field)
    {
        var cell = Cell(row, field.Column);
        if (IsUnknown(cell, field.Type))
            return item;
        var plain = Plain(cell, field.Type);
        var outcome = plain.IsFault ? new Outcome<T>(item, plain.Message, plain.Remedy) : field.Read(item, plain.Value);
        if (outcome.IsFault)
            Fault(row, field.Column, outcome.Message, outcome.Remedy);
        return outcome.Value;
    }

    private Outcome<string> Plain(string cell, KitFieldType type) => type switch
    {
        KitFieldType.Number => _notation.Plain(cell),
        KitFieldType.Flag => Flag(cell),
        KitFieldType.Pattern => new(_notation.CommaIsFree ? cell.Replace(',', '.') : cell),
        _ => new(cell),
    };

    private static Outcome<string> Flag(string cell) => cell.Trim().ToLowerInvariant() switch
    {
        "yes" or "true" or "1" => new(KitFields.Yes),
        "no" or "false" or "0" => new(KitFields.No),
        _ => new("", $"'{HeaderText.Short(cell.Trim())}' is neither yes nor no.", "Write yes or no, or leave the cell empty."),
    };

    private static bool IsUnknown(string cell, KitFieldType type) =>
        type == KitFieldType.Text ? cell.Length == 0 : Array.IndexOf(Unknown, cell.Trim()) >= 0;

    private string Name(CsvRow row) => Cell(row, "name").Trim();

    private string Cell(CsvRow row, string column) => _header.IndexOf(column) is { } index ? row.Cell(index) : "";

    private IEnumerable<string> Cells(CsvColumn column) => _table.Rows.Select(r => Cell(r, column.Name));

    // A check speaks of a figure; the file may give it in one of two columns.
    private string ColumnOf(string figure) =>
        CsvKind.All.SelectMany(k => k.Columns).Where(c => c.Figure.Equals(figure, StringComparison.Ordinal)).OrderBy(c => _header.IndexOf(c.Name) is null).FirstOrDefault()?.Name ?? figure;

    private KitPlace Place(CsvRow row, string? column) => new(_table.File, row.Number, column is null ? null : _header.Written(column));

    private void Fault(CsvRow row, string? column, string message, string remedy) =>
        _reading.Fault(Place(row, column), HeaderText.Short(Name(row)), message, remedy);
}
