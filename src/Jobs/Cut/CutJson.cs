using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Athwart.Jobs.Cut;

/// <summary>Reads and writes rules, proposals and lists of cuts.</summary>
[JsonSerializable(typeof(CutRules))]
[JsonSerializable(typeof(CutProposal))]
[JsonSerializable(typeof(FindCutsDocument))]
[JsonSerializable(typeof(CutListDocument))]
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
public sealed partial class CutJson : JsonSerializerContext
{
    /// <summary>Indented, letters outside ASCII as they are; a property that is not known is refused.</summary>
    public static CutJson Readable { get; } = new(new JsonSerializerOptions
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        AllowTrailingCommas = true,
        ReadCommentHandling = JsonCommentHandling.Skip,
    });

    /// <summary>On one line.</summary>
    public static CutJson Compact { get; } = new(new JsonSerializerOptions { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
}
