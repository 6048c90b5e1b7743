using System.Text.Json;
using Athwart.Microphones.Equipment;
using Athwart.Microphones.Patterns;
using Athwart.Quantities;

namespace Athwart.Jobs.Kits;

/// <summary>Reads a measured pattern from JSON.</summary>
internal static class JsonTable
{
    private const string Form = "it is { \"oppositeBehind\": false, \"table\": [ { \"frequencyHertz\": 1000, \"levels\": [ { \"degrees\": 0, \"decibels\": 0, \"opposite\": false } ] } ] }";

    public static bool TryRead(JsonElement element, out IPattern pattern, out string rule)
    {
        (pattern, rule) = (FirstOrderPattern.Omni, Form);
        var behind = LobeBehind.AsMarked;
        var points = new List<PatternPoint>();
        foreach (var member in element.EnumerateObject())
        {
            if (member.NameEquals("oppositeBehind") && member.Value.ValueKind is JsonValueKind.True or JsonValueKind.False)
                behind = member.Value.GetBoolean() ? LobeBehind.Opposite : LobeBehind.AsMarked;
            else if (!member.NameEquals("table") || member.Value.ValueKind != JsonValueKind.Array || !member.Value.EnumerateArray().All(row => TryRow(row, points)))
                return false;
        }

        return PatternText.TryTabulate(points, behind, out pattern, out rule);
    }

    private static bool TryRow(JsonElement row, List<PatternPoint> points)
    {
        if (row.ValueKind != JsonValueKind.Object || row.EnumerateObject().Any(m => !m.NameEquals("frequencyHertz") && !m.NameEquals("levels")))
            return false;
        return row.TryGetProperty("frequencyHertz", out var frequency) && TryNumber(frequency, out var hertz)
            && row.TryGetProperty("levels", out var levels) && levels.ValueKind == JsonValueKind.Array
            && levels.EnumerateArray().All(level => TryLevel(level, new(hertz), points));
    }

    private static bool TryLevel(JsonElement level, Hertz frequency, List<PatternPoint> points)
    {
        if (level.ValueKind != JsonValueKind.Object || !level.TryGetProperty("degrees", out var angle) || !TryNumber(angle, out var degrees) || !level.TryGetProperty("decibels", out var value))
            return false;
        var decibels = double.NegativeInfinity;
        if (value.ValueKind != JsonValueKind.Null && !TryNumber(value, out decibels))
            return false;
        var opposite = false;
        foreach (var member in level.EnumerateObject())
        {
            if (member.NameEquals("opposite") && member.Value.ValueKind is JsonValueKind.True or JsonValueKind.False)
                opposite = member.Value.GetBoolean();
            else if (!member.NameEquals("degrees") && !member.NameEquals("decibels"))
                return false;
        }

        points.Add(new(frequency, new(degrees), new(decibels), opposite));
        return true;
    }

    private static bool TryNumber(JsonElement element, out double number)
    {
        number = 0;
        return element.ValueKind == JsonValueKind.Number && double.IsFinite(number = element.GetDouble());
    }
}
