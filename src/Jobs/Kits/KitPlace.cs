using System.Globalization;

namespace Athwart.Jobs.Kits;

/// <summary>Where in a file of a kit something stands.</summary>
/// <param name="File">The file as it was named.</param>
/// <param name="Row">The row of a CSV as a spreadsheet numbers it, the header being 1; null where the whole file is meant, and in JSON.</param>
/// <param name="Column">The column of a CSV by its header; null where the whole row is meant, and in JSON.</param>
/// <param name="Path">The member of a JSON, such as 'microphones[2].weightGrams'; null in CSV.</param>
public sealed record KitPlace(string File, int? Row = null, string? Column = null, string? Path = null)
{
    /// <summary>'kit.csv, row 3, column 'noise dBA''.</summary>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"{File}{(Row is { } row ? $", row {row}" : "")}{(Column is { } column ? $", column '{column}'" : "")}{(Path is { Length: > 0 } path ? ", " + path : "")}");
}

/// <summary>What is wrong or unusual in a file of a kit.</summary>
/// <param name="Place">Where.</param>
/// <param name="Item">The name of the thing; empty where none is meant.</param>
/// <param name="Message">The rule that is broken, one sentence.</param>
/// <param name="Remedy">What to do, one sentence.</param>
public sealed record KitFault(KitPlace Place, string Item, string Message, string Remedy)
{
    /// <summary>All of it on one line.</summary>
    public override string ToString() => Item.Length == 0 ? $"{Place}: {Message} {Remedy}" : $"{Place} ({Item}): {Message} {Remedy}";
}
