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
    Converters = [typeof(Kebab<PairRoles>), typeof(Kebab<BalanceMethod>), typeof(Kebab<MadeUpMethod>), typeof(Kebab<FollowedQuantity>)])]
[JsonSerializable(typeof(Swap))]
[JsonSerializable(typeof(Invert))]
[JsonSerializable(typeof(Trim))]
[JsonSerializable(typeof(Delay))]
[JsonSerializable(typeof(LowCut))]
[JsonSerializable(typeof(HighCut))]
[JsonSerializable(typeof(Bell))]
[JsonSerializable(typeof(LowShelf))]
[JsonSerializable(typeof(HighShelf))]
[JsonSerializable(typeof(Balance))]
[JsonSerializable(typeof(WidthOverTime))]
[JsonSerializable(typeof(SideAlone))]
[JsonSerializable(typeof(Speed))]
[JsonSerializable(typeof(MonoGuard))]
[JsonSerializable(typeof(MadeUpSide))]
[JsonSerializable(typeof(TransientBalance))]
[JsonSerializable(typeof(WidthFollows))]
internal sealed partial class StepSettingsJson : JsonSerializerContext;

/// <summary>Names of an enumeration in lower case with hyphens; numbers are refused.</summary>
internal sealed class Kebab<T>() : JsonStringEnumConverter<T>(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false)
    where T : struct, Enum;
