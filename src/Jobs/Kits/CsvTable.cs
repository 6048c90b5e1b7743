using nietras.SeparatedValues;

namespace Athwart.Jobs.Kits;

/// <summary>A CSV file as rows of cells, the header first; the delimiter is found by looking at the header.</summary>
internal sealed record CsvTable(string File, char Delimiter, IReadOnlyList<string> Header, IReadOnlyList<CsvRow> Rows)
{
    private static readonly char[] Delimiters = [',', ';', '\t'];

    /// <summary>Null when the file has faults that keep it from being a table.</summary>
    public static CsvTable? Parse(string file, string text, KitReading reading)
    {
        if (string.IsNullOrWhiteSpace(text))
        {
            reading.Fault(new(file), "", "The file is empty.", "Its first row names the columns; see 'athwart kit export' for a pattern.");
            return null;
        }

        if (OpenQuote(text) is { } row)
        {
            reading.Fault(new(file, row), "", "A quotation mark is opened and never closed.", "Close it, or write a quotation mark within a text twice.");
            return null;
        }

        var delimiter = Sniff(text);
        var rows = Read(delimiter, text);
        return new(file, delimiter, rows[0].Cells, [.. rows.Skip(1).Where(r => r.Cells.Any(c => c.Length > 0))]);
    }

    private static List<CsvRow> Read(char delimiter, string text)
    {
        var rows = new List<CsvRow>();
        using var reader = Sep.New(delimiter).Reader(o => o with { HasHeader = false, Unescape = true, DisableColCountCheck = true }).FromText(text);
        foreach (var row in reader)
        {
            var cells = new string[row.ColCount];
            for (var i = 0; i < cells.Length; i++)
                cells[i] = row[i].ToString();
            rows.Add(new(rows.Count + 1, cells));
        }

        return rows;
    }

    private static char Sniff(string text)
    {
        var counts = new int[Delimiters.Length];
        var quoted = false;
        foreach (var c in text)
        {
            quoted ^= c == '"';
            if (!quoted && c is '\n' or '\r')
                break;
            if (!quoted && Array.IndexOf(Delimiters, c) is >= 0 and var found)
                counts[found]++;
        }

        return Delimiters[counts.IndexOf(counts.Max())];
    }

    // The row in which the last quotation mark opens, if it stays open.
    private static int? OpenQuote(string text)
    {
        var (quoted, row, opened) = (false, 1, 0);
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '"')
            {
                quoted = !quoted;
                opened = row;
            }

            // A lone carriage return ends a row too.
            if (!quoted && (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.Length || text[i + 1] != '\n'))))
                row++;
        }

        return quoted ? opened : null;
    }
}

/// <summary>One row, numbered as a spreadsheet does: the header is row 1.</summary>
internal sealed record CsvRow(int Number, string[] Cells)
{
    public string Cell(int column) => column < Cells.Length ? Cells[column] : "";
}
