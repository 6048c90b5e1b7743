using System.Globalization;

namespace Athwart.Jobs.Kits;

/// <summary>How one CSV file writes its numbers, and what would be a guess.</summary>
/// <param name="CommaIsFree">Whether cells are parted by something else, so that a comma may be a decimal sign.</param>
/// <param name="UsesComma">Whether some number of the file has a decimal comma; then none may have a point.</param>
internal sealed record NumberNotation(bool CommaIsFree, bool UsesComma)
{
    /// <summary>The notation of a file, from all its cells that should be numbers.</summary>
    public static NumberNotation Of(char delimiter, IEnumerable<string> cells) =>
        new(delimiter != ',', delimiter != ',' && cells.Any(c => c.Contains(',', StringComparison.Ordinal)));

    /// <summary>The number with a decimal point, or what is wrong with it.</summary>
    public Outcome<string> Plain(string cell)
    {
        var text = cell.Trim().Replace('−', '-');
        var (comma, point) = (text.Contains(',', StringComparison.Ordinal), text.Contains('.', StringComparison.Ordinal));
        if (comma && !CommaIsFree)
            return new("", $"'{text}' may be a decimal comma or a sign for thousands.", "In a file with commas between the cells write a decimal point, or part the cells by semicolons.");
        if (comma && point)
            return new("", $"'{text}' has a comma and a point.", "Write no sign for thousands.");
        if (point && UsesComma)
            return new("", $"'{text}' has a point where other numbers of this file have a decimal comma, so it may mean thousands.", "Write every number of the file with the same decimal sign and without thousands.");
        if (CommaIsFree && (comma || point) && LooksLikeThousands(text))
            return new("", $"'{text}' may be a decimal fraction or thousands.", $"Write {text.Replace(",", "", StringComparison.Ordinal).Replace(".", "", StringComparison.Ordinal)}, or {text}0 with one more digit.");
        text = text.Replace(',', '.');
        return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value)
            ? new(text)
            : new("", $"'{cell.Trim()}' is no number.", "Write the number alone; its unit stands in the header. Leave the cell empty when it is not known.");
    }

    // '1,500' and '12.000', but not '0,125' and not '14,55'.
    private static bool LooksLikeThousands(string text)
    {
        var digits = text.TrimStart('-', '+');
        var sign = digits.IndexOfAny([',', '.']);
        return sign is >= 1 and <= 3 && digits.Length == sign + 4 && digits[0] is >= '1' and <= '9' && digits.Where((_, i) => i != sign).All(char.IsAsciiDigit);
    }
}
