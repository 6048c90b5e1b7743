using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Athwart.Jobs.Storage;

namespace Athwart.Jobs.Shape;

/// <summary>Reads and writes treatments as JSON.</summary>
public static class TreatmentFiles
{
    private const int LargestBytes = 4 * 1024 * 1024;

    /// <summary>The treatment as indented JSON with a line end, the same text on every machine.</summary>
    public static string ToJson(Treatment treatment) =>
        JsonSerializer.Serialize(treatment, TreatmentJson.Default.Treatment).ReplaceLineEndings("\n") + "\n";

    /// <summary>Reads JSON.</summary>
    /// <param name="json">The text.</param>
    /// <param name="name">Its name for messages.</param>
    /// <exception cref="JobException">It is no treatment, one of a newer version, or a step in it is not known or breaks a rule.</exception>
    public static Treatment FromJson(string json, string name = "the treatment")
    {
        try
        {
            // The version is judged before anything else, for a newer one may have changed everything else.
            var heading = JsonSerializer.Deserialize(json, TreatmentHeadingJson.Default.TreatmentHeading);
            if (heading is null || !string.Equals(heading.Kind, Treatment.KindName, StringComparison.Ordinal))
                throw new JobException(JobErrorKind.WrongUse, $"{name}: this is no treatment; its 'kind' should be '{Treatment.KindName}'.", "Choose a file that 'athwart shape show' wrote, or begin with one.");
            if (heading.Version is < 1 or > Treatment.CurrentVersion)
                throw new JobException(JobErrorKind.WrongUse, $"{name}: the treatment has version {heading.Version}, this program reads up to {Treatment.CurrentVersion}.", "Use a newer program.");
            var current = TreatmentMigrations.ToCurrent(json, heading.Version);
            return TreatmentRules.Checked(JsonSerializer.Deserialize(current, TreatmentJson.Default.Treatment)!, name);
        }
        catch (JsonException e)
        {
            var line = e.LineNumber is { } number ? FormattableString.Invariant($", line {number + 1}") : "";
            throw new JobException(JobErrorKind.WrongUse, $"{name}{line}{Place(e)}: {e.Message.TrimEnd('.')}.", "Correct it there; docs/shape.md documents every field.", e);
        }
    }

    /// <summary>Reads a treatment file.</summary>
    /// <exception cref="JobException">It is no treatment, or too large to be one.</exception>
    public static Treatment Read(string path)
    {
        if (!File.Exists(path))
            throw new JobException(JobErrorKind.WrongUse, $"{path}: there is no such file.", "Name a treatment file, or one that is kept in the library.");
        if (new FileInfo(path).Length > LargestBytes)
            throw new JobException(JobErrorKind.WrongUse, $"{path}: {new FileInfo(path).Length} bytes are too many for a treatment.", "Choose a treatment file.");
        return FromJson(File.ReadAllText(path), path);
    }

    /// <summary>Writes a treatment file.</summary>
    /// <exception cref="JobException">It is there already and may not be replaced.</exception>
    public static void Write(string path, Treatment treatment, bool overwrite) => WholeFile.Write(path, ToJson(treatment), overwrite);

    private static string Place(JsonException e) => e.Path is null or "$" ? "" : ", " + e.Path.TrimStart('$', '.');
}

/// <summary>The part of a treatment that every version shares.</summary>
internal sealed record TreatmentHeading
{
    public string? Kind { get; init; }

    public int Version { get; init; }
}

/// <summary>Brings older treatments up to date: step n makes version n + 1 from version n, and renders the same bytes.</summary>
internal static class TreatmentMigrations
{
    // Version 1 is the first. A later version puts its step here and never changes it again.
    private static readonly Action<JsonObject>[] Steps = [];

    public static string ToCurrent(string json, int version)
    {
        if (version == Treatment.CurrentVersion)
            return json;
        var treatment = JsonNode.Parse(json)!.AsObject();
        foreach (var step in Steps.AsSpan(version - 1))
            step(treatment);
        treatment["version"] = Treatment.CurrentVersion;
        return treatment.ToJsonString();
    }
}

[JsonSourceGenerationOptions(
    WriteIndented = true,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    RespectNullableAnnotations = true)]
[JsonSerializable(typeof(TreatmentHeading))]
internal sealed partial class TreatmentHeadingJson : JsonSerializerContext;

[JsonSourceGenerationOptions(
    WriteIndented = true,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true)]
[JsonSerializable(typeof(Treatment))]
internal sealed partial class TreatmentJson : JsonSerializerContext;
