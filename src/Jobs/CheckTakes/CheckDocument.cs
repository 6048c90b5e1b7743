using System.Text.Json.Serialization;
using Athwart.Recordings;

namespace Athwart.Jobs.CheckTakes;

/// <summary>The JSON of a check; docs/check.md documents every field. Silence, which has no finite level, is null.</summary>
public sealed record CheckDocument
{
    /// <summary>The version written by this program.</summary>
    public const int CurrentVersion = 1;

    /// <summary>The version of this layout; it grows when a field changes its meaning or goes.</summary>
    [JsonPropertyName("athwartCheck")]
    public int Version { get; init; } = CurrentVersion;

    /// <summary>The program that checked, with its version.</summary>
    public required string Program { get; init; }

    /// <summary>The side level at which left and right were predicted; null for mono.</summary>
    public required double? SideLevelDecibels { get; init; }

    /// <summary>The takes, in order of name.</summary>
    public required IReadOnlyList<TakeDocument> Takes { get; init; }

    /// <summary>Files that hold no recording we can read.</summary>
    public required IReadOnlyList<RefusedDocument> Refused { get; init; }

    /// <summary>From a report.</summary>
    public static CheckDocument From(CheckReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        return new()
        {
            Program = ProgramName.WithVersion,
            SideLevelDecibels = JsonNumber.Finite(report.SideLevel.Value),
            Takes = [.. report.Takes.Select(TakeDocument.From)],
            Refused = [.. report.Refused.Select(RefusedDocument.From)],
        };
    }
}

/// <summary>A file that holds no recording we can read.</summary>
/// <param name="File">The path as it was given or found.</param>
/// <param name="Kind">not-a-recording, malformed, unsupported, truncated, limit-reached or library-missing.</param>
/// <param name="ByteOffset">Where in the file; null when it has no one place.</param>
/// <param name="Chunk">The chunk; null when it is none.</param>
/// <param name="Rule">The rule that was broken.</param>
/// <param name="Remedy">What to do.</param>
public sealed record RefusedDocument(string File, string Kind, long? ByteOffset, string? Chunk, string Rule, string Remedy)
{
    /// <summary>From a refusal.</summary>
    public static RefusedDocument From(RefusedFile refused)
    {
        ArgumentNullException.ThrowIfNull(refused);
        var reason = refused.Error;
        return new(refused.Path, JsonNumber.Word(reason.Kind.ToString()), reason.ByteOffset, reason.ChunkId, reason.Rule, reason.Remedy);
    }
}
