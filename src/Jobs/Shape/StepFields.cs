using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Athwart.Jobs.Shape;

/// <summary>The settings of a step as fields of a form: read from its JSON, and written back through the same checks as a file.</summary>
public static class StepFields
{
    /// <summary>Every field, also those of which nothing is said.</summary>
    public static IReadOnlyList<StepField> Of(TreatmentStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        var said = step.Kind.Write(step.Settings).ToDictionary(f => f.Name, f => f.Value, StringComparer.Ordinal);
        return [.. step.Kind.Fields.Select(f => Field(f.Name, f.Type, said.TryGetValue(f.Name, out var value) ? value : null))];
    }

    /// <summary>The step with one field changed.</summary>
    /// <param name="step">The step.</param>
    /// <param name="name">The field's name in JSON.</param>
    /// <param name="text">What it is to be; empty to say nothing.</param>
    /// <exception cref="JobException">The step has no such field, or it is held to a range that this is not in.</exception>
    public static TreatmentStep With(TreatmentStep step, string name, string text)
    {
        ArgumentNullException.ThrowIfNull(step);
        ArgumentNullException.ThrowIfNull(text);
        var field = Of(step).FirstOrDefault(f => string.Equals(f.Name, name, StringComparison.Ordinal))
            ?? throw new JobException(JobErrorKind.WrongUse, $"A step '{step.Kind.Name}' has no field '{name}'.", "docs/shape.md lists its fields.");
        var json = new JsonObject { ["step"] = step.Kind.Name };
        foreach (var said in step.Kind.Write(step.Settings))
            json[said.Name] = JsonNode.Parse(said.Value.GetRawText());
        json.Remove(name);
        if (text.Trim().Length > 0)
            json[name] = Value(field, text.Trim());
        if (step.Note is not null)
            json["note"] = step.Note;
        return Read(json, $"'{step.Kind.Name}'");
    }

    /// <summary>A step from its JSON object.</summary>
    /// <exception cref="JobException">It breaks a rule.</exception>
    public static TreatmentStep Parse(string json) => Read(JsonNode.Parse(json)!.AsObject(), "the step");

    private static TreatmentStep Read(JsonObject step, string name)
    {
        var treatment = new JsonObject { ["kind"] = Treatment.KindName, ["version"] = Treatment.CurrentVersion, ["name"] = name, ["steps"] = new JsonArray(step) };
        return TreatmentFiles.FromJson(treatment.ToJsonString(), name).Steps[0];
    }

    private static StepField Field(string name, Type type, JsonElement? said)
    {
        var bare = Nullable.GetUnderlyingType(type) ?? type;
        var (words, unit) = StepWords.Split(name);
        if (bare == typeof(bool))
            return new(name, words, unit, StepFieldKind.YesNo, said is { ValueKind: JsonValueKind.True } ? "true" : "false", [], []);
        if (bare.IsEnum)
            return new(name, words, unit, StepFieldKind.Choice, said?.GetString() ?? "", Choices(bare), []);
        return bare == typeof(double) || bare == typeof(int)
            ? new(name, words, unit, StepFieldKind.Number, said is { } number ? Number(number) : "", [], [])
            : new(name, words, unit, StepFieldKind.Entries, said is { } list ? string.Join("; ", list.EnumerateArray().Select(Entry)) : "", [], PartsOf(said));
    }

    // No step takes 'none'.
    private static string[] Choices(Type type) => [.. Enum.GetNames(type).Select(JsonNamingPolicy.KebabCaseLower.ConvertName).Where(c => c is not "none")];

    private static string[] PartsOf(JsonElement? list) => list is { } said && said.GetArrayLength() > 0 && said[0].ValueKind == JsonValueKind.Object
        ? [.. said[0].EnumerateObject().Select(p => p.Name)]
        : [];

    private static string Entry(JsonElement entry) => entry.ValueKind == JsonValueKind.Object
        ? string.Join(' ', entry.EnumerateObject().Select(p => Number(p.Value)))
        : Number(entry);

    private static string Number(JsonElement value) => value.ValueKind == JsonValueKind.String
        ? value.GetString() switch { "-Infinity" => "-inf", "Infinity" => "inf", var other => other ?? "" }
        : value.GetDouble().ToString("0.##########", CultureInfo.InvariantCulture);

    private static JsonNode Value(StepField field, string text) => field.Kind switch
    {
        StepFieldKind.YesNo => JsonValue.Create(text is "true"),
        StepFieldKind.Choice => JsonValue.Create(text),
        StepFieldKind.Number => Read(field, text),
        _ => new JsonArray([.. text.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(e => Entry(field, e))]),
    };

    private static JsonNode Entry(StepField field, string text)
    {
        var numbers = text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        if (field.Parts.Count == 0 && numbers.Length == 1)
            return Read(field, numbers[0]);
        if (numbers.Length != field.Parts.Count)
            throw new JobException(JobErrorKind.WrongUse, $"'{text}' is no entry of '{field.Words}'.", $"Write {string.Join(' ', field.Parts)}, and ';' before the next.");
        var entry = new JsonObject();
        foreach (var (part, number) in field.Parts.Zip(numbers))
            entry[part] = Read(field, number);
        return entry;
    }

    // Whole numbers without a point: fields that count frames take nothing else.
    private static JsonValue Read(StepField field, string text)
    {
        var plain = text.Replace('−', '-');
        if (plain is "-inf" or "-∞" or "inf" or "∞")
            return JsonValue.Create(plain[0] == '-' ? "-Infinity" : "Infinity");
        if (long.TryParse(plain, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var whole))
            return JsonValue.Create(whole);
        return double.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number)
            ? JsonValue.Create(number)
            : throw new JobException(JobErrorKind.WrongUse, $"'{text}' is no number for '{field.Words}'.", "Write it as 12.5, or -inf for nothing at all.");
    }
}
