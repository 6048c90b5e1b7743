using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Athwart.Jobs.Shape;

/// <summary>Steps in words, made from the names of their fields and the units in them.</summary>
internal static class StepWords
{
    private static readonly (string Ending, string Unit)[] Units =
    [
        ("DecibelsPerOctave", "dB/octave"), ("Decibels", "dB"), ("Hertz", "Hz"), ("Degrees", "°"), ("Milliseconds", "ms"), ("Seconds", "s"),
        ("Frames", "frames"), ("Octaves", "octaves"), ("Percent", "%"), ("Ratio", "×"), ("Metres", "m"),
    ];

    /// <summary>'low-cut: both, frequency 60 Hz, slope 24 dB/octave'.</summary>
    public static string Describe(TreatmentStep step)
    {
        var fields = step.Kind.Write(step.Settings).Select(f => Field(f.Name, f.Value)).Where(f => f.Length > 0).ToList();
        return fields.Count == 0 ? step.Kind.Name : step.Kind.Name + ": " + string.Join(", ", fields);
    }

    private static string Field(string name, JsonElement value)
    {
        if (value.ValueKind == JsonValueKind.Array)
            return Points(name, value);
        if (value.ValueKind == JsonValueKind.String && name is "roles")
            return value.GetString()!;
        var (words, unit) = Split(name);
        return value.ValueKind switch
        {
            JsonValueKind.True => words,
            JsonValueKind.False or JsonValueKind.Null => "",
            JsonValueKind.Number => words + " " + Number(value.GetDouble(), unit),
            JsonValueKind.String when string.Equals(value.GetString(), "-Infinity", StringComparison.Ordinal) => words + " " + Number(double.NegativeInfinity, unit),
            JsonValueKind.String => words + " " + value.GetString(),
            _ => words,
        };
    }

    private static string Points(string name, JsonElement points)
    {
        var texts = points.EnumerateArray().Take(5).Select(p => p.ValueKind == JsonValueKind.Object
            ? string.Join(" ", p.EnumerateObject().Where(f => f.Value.ValueKind == JsonValueKind.Number).Select(f => Number(f.Value.GetDouble(), Split(f.Name).Unit)))
            : p.ToString());
        var more = points.GetArrayLength() > 5 ? string.Create(CultureInfo.InvariantCulture, $" … {points.GetArrayLength()} in all") : "";
        return Split(name).Words + " [" + string.Join("; ", texts) + more + "]";
    }

    private static string Number(double value, string unit)
    {
        var number = double.IsNegativeInfinity(value) ? "−∞" : string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(value):0.####}");
        var sign = value < 0 && !double.IsInfinity(value) ? "−" : "";
        return sign + number + (unit.Length == 0 ? "" : unit is "°" or "×" ? unit : " " + unit);
    }

    // 'slopeDecibelsPerOctave' is 'slope' in dB/octave.
    internal static (string Words, string Unit) Split(string name)
    {
        var capital = char.ToUpperInvariant(name[0]) + name[1..];
        var (ending, unit) = Units.FirstOrDefault(u => capital.EndsWith(u.Ending, StringComparison.Ordinal));
        var bare = ending is null ? capital : capital[..^ending.Length];
        return (Words(bare.Length == 0 ? capital : bare), unit ?? "");
    }

    private static string Words(string camel)
    {
        var text = new StringBuilder();
        foreach (var letter in camel)
        {
            if (char.IsUpper(letter) && text.Length > 0)
                text.Append(' ');
            text.Append(char.ToLowerInvariant(letter));
        }

        return text.ToString();
    }
}
