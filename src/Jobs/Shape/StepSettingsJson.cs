using System.Text.Json;
using System.Text.Json.Serialization;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape;

/// <summary>Settings of every kind of step as JSON; a field that is not known or is missing is refused.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    Converters = [typeof(Kebab<PairRoles>)])]
[JsonSerializable(typeof(Swap))]
[JsonSerializable(typeof(Invert))]
[JsonSerializable(typeof(Trim))]
internal sealed partial class StepSettingsJson : JsonSerializerContext;

/// <summary>Names of an enumeration in lower case with hyphens; numbers are refused.</summary>
internal sealed class Kebab<T>() : JsonStringEnumConverter<T>(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false)
    where T : struct, Enum;
