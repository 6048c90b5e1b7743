using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Athwart.Jobs.CheckTakes;

/// <summary>Writes the JSON of a check.</summary>
[JsonSerializable(typeof(CheckDocument))]
[JsonSerializable(typeof(TakeDocument))]
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
public sealed partial class CheckJson : JsonSerializerContext
{
    /// <summary>Indented, letters outside ASCII as they are.</summary>
    public static CheckJson Readable { get; } = new(new JsonSerializerOptions { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });

    /// <summary>On one line.</summary>
    public static CheckJson Compact { get; } = new(new JsonSerializerOptions { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
}
