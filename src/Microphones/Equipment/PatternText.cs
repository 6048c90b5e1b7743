using System.Globalization;
using System.Text;
using Athwart.Microphones.Patterns;
using Athwart.Quantities;

namespace Athwart.Microphones.Equipment;

/// <summary>
/// A pattern as one line of text: a name, an omni share, or a measured table such as
/// 'measured 125 Hz: 0=0 90=-30 180=-0.4inv | 8000 Hz: 0=0 90=-22 180=-3inv' (degrees=decibels; 'inv' where the lobe has the
/// opposite polarity; '-inf' in a null; 'measured opposite-behind' where everything past the deepest place has it).
/// </summary>
/// <remarks>Reading what was written gives the same pattern to the bit. Invariant culture; no commas, so that it may stand in any CSV.</remarks>
public static class PatternText
{
    private const string Measured = "measured";
    private const string OppositeBehind = "opposite-behind";
    private const string Inverted = "inv";
    private const string TableRule = "a measured table is written 'measured 125 Hz: 0=0 90=-30 180=-0.4inv | 8000 Hz: 0=0 90=-22 180=-3inv', degrees=decibels at each frequency";

    /// <summary>The text of a pattern.</summary>
    /// <exception cref="ArgumentException">Neither first-order nor tabulated.</exception>
    public static string Format(IPattern pattern) => pattern switch
    {
        FirstOrderPattern first => FirstOrderPattern.Named.Contains(first) ? first.Name : first.OmniShare.ToString("R", CultureInfo.InvariantCulture),
        TabulatedPattern table => FormatTable(table),
        _ => throw new ArgumentException($"A pattern of the type {pattern?.GetType().Name} cannot be written down.", nameof(pattern)),
    };

    /// <summary>Reads the text of a pattern.</summary>
    /// <param name="text">A name, an omni share or a table.</param>
    /// <param name="pattern">The pattern; an omni when the text is not understood.</param>
    /// <param name="rule">Empty, or what is wrong and what to write instead.</param>
    /// <returns>Whether it was understood.</returns>
    public static bool TryParse(string? text, out IPattern pattern, out string rule)
    {
        rule = "";
        var trimmed = text?.Trim() ?? "";
        if (trimmed.StartsWith(Measured, StringComparison.OrdinalIgnoreCase))
            return TryParseTable(trimmed[Measured.Length..], out pattern, out rule);
        var known = PatternNames.TryParse(trimmed, out var first);
        pattern = first;
        if (!known)
            rule = $"'{trimmed}' is no pattern; {PatternNames.Remedy}";
        return known;
    }

    /// <summary>A table of measured points, or why there is none.</summary>
    public static bool TryTabulate(IReadOnlyList<PatternPoint> points, LobeBehind behind, out IPattern pattern, out string rule)
    {
        try
        {
            (pattern, rule) = (new TabulatedPattern(points, behind), "");
            return true;
        }
        catch (ArgumentException error)
        {
            // The runtime adds the parameter's name in brackets, which tells a recordist nothing.
            (pattern, rule) = (FirstOrderPattern.Omni, error.Message.Split(" (Parameter", 2)[0]);
            return false;
        }
    }

    private static string FormatTable(TabulatedPattern table)
    {
        var text = new StringBuilder(Measured);
        if (table.Behind == LobeBehind.Opposite)
            text.Append(' ').Append(OppositeBehind);
        foreach (var row in table.Points.GroupBy(p => p.Frequency))
        {
            text.Append(CultureInfo.InvariantCulture, $" {row.Key.Value:R} Hz:");
            foreach (var point in row)
                text.Append(CultureInfo.InvariantCulture, $" {point.Angle.Value:R}={Level(point.Level)}{(point.Opposite ? Inverted : "")}");
            text.Append(" |");
        }

        return text.ToString(0, text.Length - 2);
    }

    private static string Level(Decibels level) => double.IsNegativeInfinity(level.Value) ? "-inf" : level.Value.ToString("R", CultureInfo.InvariantCulture);

    private static bool TryParseTable(string text, out IPattern pattern, out string rule)
    {
        (pattern, rule) = (FirstOrderPattern.Omni, TableRule);
        var behind = LobeBehind.AsMarked;
        var rest = text.Trim();
        if (rest.StartsWith(OppositeBehind, StringComparison.OrdinalIgnoreCase))
            (behind, rest) = (LobeBehind.Opposite, rest[OppositeBehind.Length..]);
        var points = new List<PatternPoint>();
        foreach (var row in rest.Split('|'))
        {
            if (!TryParseRow(row, points))
                return false;
        }

        return TryTabulate(points, behind, out pattern, out rule);
    }

    private static bool TryParseRow(string row, List<PatternPoint> points)
    {
        var parts = row.Split("Hz:", 2);
        if (parts.Length < 2 || !TryNumber(parts[0].Trim(), out var frequency))
            return false;
        foreach (var word in parts[1].Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            var sides = word.Split('=', 2);
            if (sides.Length < 2 || !TryNumber(sides[0], out var angle) || !TryLevel(sides[1], out var level, out var opposite))
                return false;
            points.Add(new(new(frequency), new(angle), level, opposite));
        }

        return true;
    }

    private static bool TryLevel(string text, out Decibels level, out bool opposite)
    {
        opposite = text.EndsWith(Inverted, StringComparison.Ordinal);
        var number = opposite ? text[..^Inverted.Length] : text;
        level = Decibels.Silence;
        if (number.Equals("-inf", StringComparison.Ordinal))
            return true;
        var read = TryNumber(number, out var value);
        level = new(value);
        return read;
    }

    private static bool TryNumber(string text, out double value) =>
        double.TryParse(text.Replace('−', '-'), NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);
}
