using System.Text.Json;
using System.Text.Json.Serialization;
using Athwart.Quantities;
using Athwart.Signals.Convolution;
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
    Converters = [typeof(Kebab<PairRoles>), typeof(Kebab<BalanceMethod>), typeof(Kebab<MadeUpMethod>), typeof(Kebab<FollowedQuantity>), typeof(Kebab<FilterPhase>), typeof(Kebab<ShufflerLaw>), typeof(FrameRangeConverter)])]
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
[JsonSerializable(typeof(ResponseMatch))]
[JsonSerializable(typeof(RigMatch))]
[JsonSerializable(typeof(HumCut))]
[JsonSerializable(typeof(Repair))]
[JsonSerializable(typeof(WindReduction))]
[JsonSerializable(typeof(WidthCurve))]
[JsonSerializable(typeof(Shuffler))]
[JsonSerializable(typeof(MonoBelow))]
[JsonSerializable(typeof(TransientBalance))]
[JsonSerializable(typeof(WidthFollows))]
internal sealed partial class StepSettingsJson : JsonSerializerContext;

/// <summary>Names of an enumeration in lower case with hyphens; numbers are refused.</summary>
internal sealed class Kebab<T>() : JsonStringEnumConverter<T>(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false)
    where T : struct, Enum;

/// <summary>A stretch of a take as {"fromFrame": …, "toFrame": …}; the latter is not part of it.</summary>
internal sealed class FrameRangeConverter : JsonConverter<FrameRange>
{
    public override FrameRange Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        var range = JsonElement.ParseValue(ref reader);
        if (range.ValueKind != JsonValueKind.Object || !Frame(range, "fromFrame", out var from) || !Frame(range, "toFrame", out var to) || from < 0 || to < from)
            throw new JsonException("a stretch is {\"fromFrame\": n, \"toFrame\": m} with 0 ≤ n ≤ m");
        return FrameRange.FromFrames(from, to);
    }

    public override void Write(Utf8JsonWriter writer, FrameRange value, JsonSerializerOptions options)
    {
        writer.WriteStartObject();
        writer.WriteNumber("fromFrame", value.From.Value);
        writer.WriteNumber("toFrame", value.To.Value);
        writer.WriteEndObject();
    }

    private static bool Frame(JsonElement range, string name, out long frame)
    {
        frame = 0;
        return range.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.Number && value.TryGetInt64(out frame);
    }
}
