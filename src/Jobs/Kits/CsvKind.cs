using Athwart.Microphones.Equipment;

namespace Athwart.Jobs.Kits;

/// <summary>One column that a kind of CSV may have.</summary>
/// <param name="Name">The whole header, name and unit.</param>
/// <param name="Figure">The name without the unit.</param>
/// <param name="Unit">The unit; empty when it has none.</param>
internal sealed record CsvColumn(string Name, string Figure, string Unit);

/// <summary>The columns of the three kinds of CSV, and which kind a header is.</summary>
internal sealed record CsvKind(string Things, string Told, IReadOnlyList<CsvColumn> Columns)
{
    public static CsvKind Microphones { get; } = new("microphones", "pattern", Of(KitFields.Setting, KitFields.Microphone));

    public static CsvKind Recorders { get; } = new("recorders", "inputs", Of(KitFields.Recorder));

    public static CsvKind Protections { get; } = new("wind protections", "inner length mm", Of(KitFields.Protection));

    public static IReadOnlyList<CsvKind> All { get; } = [Microphones, Recorders, Protections];

    /// <summary>The kind with the most columns that no other kind has, by name without unit; null when that leaves it open.</summary>
    public static CsvKind? Tell(IEnumerable<string> header)
    {
        var names = header.Select(HeaderText.Plain).ToList();
        var ranked = All.Select(k => (Kind: k, Own: names.Count(n => k.Owns(n)))).OrderByDescending(r => r.Own).ToList();
        return ranked[0].Own > ranked[1].Own ? ranked[0].Kind : null;
    }

    /// <summary>The column whose name without unit begins this header, the longest first.</summary>
    public CsvColumn? Begins(string plain) => Columns
        .Where(c => plain.Equals(HeaderText.Plain(c.Figure), StringComparison.Ordinal) || plain.StartsWith(HeaderText.Plain(c.Figure) + ' ', StringComparison.Ordinal))
        .MaxBy(c => c.Figure.Length);

    private bool Owns(string plain) => Begins(plain) is { } column && All.All(k => k == this || !string.Equals(k.Begins(plain)?.Figure, column.Figure, StringComparison.Ordinal));

    private static List<CsvColumn> Of<T>(IReadOnlyList<KitField<T>> fields, params IEnumerable<KitField<Microphone>> more) =>
        [new("name", "name", ""), .. fields.Select(Column), .. more.Select(Column)];

    private static CsvColumn Column<T>(KitField<T> field) =>
        new(field.Column, field.Figure, field.Column.Length > field.Figure.Length ? field.Column[(field.Figure.Length + 1)..] : "");
}
