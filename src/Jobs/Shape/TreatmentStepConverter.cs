using System.Text.Json;
using System.Text.Json.Serialization;

namespace Athwart.Jobs.Shape;

/// <summary>A step as one JSON object: the kind, its settings in their order, the note.</summary>
public sealed class TreatmentStepConverter : JsonConverter<TreatmentStep>
{
    private const string StepField = "step", NoteField = "note";

    /// <inheritdoc/>
    public override TreatmentStep Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        var step = JsonElement.ParseValue(ref reader);
        if (step.ValueKind != JsonValueKind.Object || !step.TryGetProperty(StepField, out var name) || name.ValueKind != JsonValueKind.String)
            throw new JsonException("a step is an object whose 'step' names its kind, such as {\"step\": \"trim\", …}");
        var kind = StepKinds.Find(name.GetString())
            ?? throw new JsonException($"there is no step '{name.GetString()}'; this program knows {string.Join(", ", StepKinds.All.Select(k => k.Name))}. Use a newer program, or take the step out");
        return TreatmentStep.Read(kind, Settings(kind, step), Note(step));
    }

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, TreatmentStep value, JsonSerializerOptions options)
    {
        ArgumentNullException.ThrowIfNull(writer);
        ArgumentNullException.ThrowIfNull(value);
        writer.WriteStartObject();
        writer.WriteString(StepField, value.Kind.Name);
        foreach (var field in value.Kind.Write(value.Settings))
            field.WriteTo(writer);
        if (value.Note is not null)
            writer.WriteString(NoteField, value.Note);
        writer.WriteEndObject();
    }

    private static string? Note(JsonElement step) => !step.TryGetProperty(NoteField, out var note) ? null
        : note.ValueKind == JsonValueKind.String ? note.GetString()
        : throw new JsonException("the 'note' of a step is a text");

    private static object Settings(StepKind kind, JsonElement step)
    {
        try
        {
            return kind.Read(WithoutOwnFields(step));
        }
        catch (JsonException e)
        {
            throw new JsonException($"step '{kind.Name}', {Place(e)}: {Reason(e)}; docs/shape.md lists its fields", e);
        }
        catch (ArgumentException e)
        {
            // Settings say themselves what range they are held to and what to do.
            throw new JsonException($"step '{kind.Name}': {FirstLine(e)}", e);
        }
    }

    private static JsonElement WithoutOwnFields(JsonElement step)
    {
        var buffer = new System.Buffers.ArrayBufferWriter<byte>();
        using (var writer = new Utf8JsonWriter(buffer))
        {
            writer.WriteStartObject();
            foreach (var field in step.EnumerateObject().Where(f => f.Name is not StepField and not NoteField))
                field.WriteTo(writer);
            writer.WriteEndObject();
        }

        using var document = JsonDocument.Parse(buffer.WrittenMemory);
        return document.RootElement.Clone();
    }

    private static string Place(JsonException e) => e.Path is null or "$" ? "its fields" : "field '" + e.Path.TrimStart('$', '.') + "'";

    private static string Reason(JsonException e)
    {
        var text = e.Message;
        var path = text.IndexOf(" Path: ", StringComparison.Ordinal);
        return (path < 0 ? text : text[..path]).TrimEnd('.');
    }

    private static string FirstLine(ArgumentException e)
    {
        var text = e.Message;
        var parameter = text.IndexOf(" (Parameter ", StringComparison.Ordinal);
        return (parameter < 0 ? text : text[..parameter]).ReplaceLineEndings(" ").TrimEnd('.');
    }
}
