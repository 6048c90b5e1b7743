using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Athwart.Jobs.PlanRig;

/// <summary>Writes the JSON of rigs and choices.</summary>
[JsonSerializable(typeof(RigDocument))]
[JsonSerializable(typeof(IReadOnlyList<RigDocument>))]
[JsonSerializable(typeof(ChoiceDocument))]
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
public sealed partial class RigJson : JsonSerializerContext
{
    /// <summary>Indented, letters outside ASCII as they are.</summary>
    public static RigJson Readable { get; } = new(new JsonSerializerOptions { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
}
