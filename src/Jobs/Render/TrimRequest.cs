using System.Text.Json.Serialization;

namespace Athwart.Jobs.Render;

/// <summary>What a trim aims at.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<TrimKind>))]
public enum TrimKind
{
    /// <summary>No trim.</summary>
    [JsonStringEnumMemberName("none")]
    None = 0,

    /// <summary>A fixed gain in decibels.</summary>
    [JsonStringEnumMemberName("gain")]
    Gain,

    /// <summary>The highest sample at so many dBFS.</summary>
    [JsonStringEnumMemberName("sample-peak")]
    SamplePeak,

    /// <summary>The true peak at so many dBTP.</summary>
    [JsonStringEnumMemberName("true-peak")]
    TruePeak,

    /// <summary>Integrated loudness at so many LUFS.</summary>
    [JsonStringEnumMemberName("loudness")]
    Loudness,

    /// <summary>The true peak at so many dBTP at the most: trimmed down where it is higher, left to the bit where it is not.</summary>
    [JsonStringEnumMemberName("ceiling")]
    Ceiling,
}

/// <summary>A trim as it was asked for.</summary>
/// <param name="Kind">What it aims at.</param>
/// <param name="Target">The level aimed at in dBFS, dBTP or LUFS, or the gain in dB; 0 for none.</param>
public sealed record TrimRequest(TrimKind Kind, double Target)
{
    /// <summary>No trim.</summary>
    public static TrimRequest None { get; } = new(TrimKind.None, 0);
}
