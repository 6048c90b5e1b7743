using System.Text.Json;
using System.Text.Json.Serialization;

namespace Athwart.Jobs.Deliver.Manifests;

[JsonSerializable(typeof(Manifest))]
[JsonSourceGenerationOptions(
    WriteIndented = true,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
internal sealed partial class ManifestJson : JsonSerializerContext
{
    /// <summary>Letters outside ASCII stay readable: a manifest is read by people too.</summary>
    public static ManifestJson Readable { get; } = new(new JsonSerializerOptions
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        WriteIndented = true,
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    });
}
