using System.Text.Json.Serialization;
using Athwart.Recordings;

namespace Athwart.Jobs.Render;

/// <summary>The sample word of a rendered file.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<OutputWord>))]
public enum OutputWord
{
    /// <summary>16-bit integer, 's16'.</summary>
    [JsonStringEnumMemberName("s16")]
    Signed16 = 0,

    /// <summary>24-bit integer, 's24'.</summary>
    [JsonStringEnumMemberName("s24")]
    Signed24,

    /// <summary>32-bit integer, 's32'.</summary>
    [JsonStringEnumMemberName("s32")]
    Signed32,

    /// <summary>32-bit float, 'f32'; never limited.</summary>
    [JsonStringEnumMemberName("f32")]
    Floating,
}

/// <summary>What words are called and how they are stored.</summary>
public static class OutputWords
{
    /// <summary>Reads 's16', 's24', 's32' or 'f32'.</summary>
    /// <returns>False for any other text.</returns>
    public static bool TryParse(string? text, out OutputWord word)
    {
        (word, var known) = text switch
        {
            "s16" => (OutputWord.Signed16, true),
            "s24" => (OutputWord.Signed24, true),
            "s32" => (OutputWord.Signed32, true),
            "f32" => (OutputWord.Floating, true),
            _ => (OutputWord.Signed24, false),
        };
        return known;
    }

    /// <summary>'s16', 's24', 's32' or 'f32'.</summary>
    public static string Name(this OutputWord word) => word switch
    {
        OutputWord.Signed16 => "s16",
        OutputWord.Signed24 => "s24",
        OutputWord.Signed32 => "s32",
        _ => "f32",
    };

    /// <summary>The stored format.</summary>
    public static SampleFormat Format(this OutputWord word) => word switch
    {
        OutputWord.Signed16 => SampleFormat.Int16,
        OutputWord.Signed24 => SampleFormat.Int24,
        OutputWord.Signed32 => SampleFormat.Int32,
        _ => SampleFormat.Float32,
    };

    /// <summary>The shortest word that holds a recording's own samples: 8-bit becomes 's16', 64-bit float 'f32'.</summary>
    public static OutputWord For(SampleFormat format) => format switch
    {
        { IsInteger: false } => OutputWord.Floating,
        { ContainerBits: <= 16 } => OutputWord.Signed16,
        { ContainerBits: 24 } => OutputWord.Signed24,
        _ => OutputWord.Signed32,
    };
}
