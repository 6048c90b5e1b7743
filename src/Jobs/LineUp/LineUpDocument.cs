using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using Athwart.Jobs.CheckTakes;

namespace Athwart.Jobs.LineUp;

/// <summary>One sound of a line-up in JSON.</summary>
public sealed record SoundDocument(long Frame, double Seconds, string Direction, double? SideOverMidDecibels, double? SignalOverNoiseDecibels, bool Sustained);

/// <summary>One direction of a line-up in JSON.</summary>
public sealed record DirectionDocument(string Direction, double AzimuthDegrees, int Sounds, NumberDocument MidLevelDecibels, NumberDocument SideOverMidDecibels, NumberDocument DelayFrames);

/// <summary>One finding of a line-up in JSON.</summary>
public sealed record LineUpFindingDocument(string Kind, string Severity, string? Role, string Message, string Remedy, double Confidence, double? Size, string SizeUnit);

/// <summary>The JSON of a line-up; docs/line-up.md documents every field.</summary>
public sealed record LineUpDocument(RigProfileDocument Profile, IReadOnlyList<DirectionDocument> Directions, IReadOnlyList<SoundDocument> Sounds, IReadOnlyList<LineUpFindingDocument> Findings, IReadOnlyList<string> Changes)
{
    /// <summary>From a report.</summary>
    public static LineUpDocument From(LineUpReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        var r = report.Result;
        return new(
            RigProfileDocument.From(report, report.Rig, null),
            [.. r.Directions.Select(d => new DirectionDocument(d.Direction.Name, d.Direction.AzimuthDegrees, d.Sounds, NumberDocument.From(d.MidLevel), NumberDocument.From(d.SideOverMid), NumberDocument.From(d.Delay)))],
            [.. r.Sounds.Select(s => new SoundDocument(s.Onset, Math.Round((double)s.Onset / r.SampleRateHertz, 6), s.Direction.IsSilence ? "unknown" : s.Direction.Name, JsonNumber.Finite(s.SideOverMidDecibels), JsonNumber.Finite(s.SignalOverNoiseDecibels), s.IsSustained))],
            [.. r.Findings.Select(f => new LineUpFindingDocument(f.Kind, JsonNumber.Word(f.Severity.ToString()), f.Role is { } role ? JsonNumber.Word(role.ToString()) : null, f.Message, f.Remedy, Math.Round(f.Confidence, 3), f.Size is { } size ? JsonNumber.Finite(size) : null, f.SizeUnit))],
            report.Changes);
    }
}

/// <summary>Writes the JSON of line-ups and rig profiles.</summary>
[JsonSerializable(typeof(LineUpDocument))]
[JsonSerializable(typeof(RigProfileDocument))]
[JsonSerializable(typeof(IReadOnlyList<RigProfileDocument>))]
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
public sealed partial class LineUpJson : JsonSerializerContext
{
    /// <summary>Indented, letters outside ASCII as they are.</summary>
    public static LineUpJson Readable { get; } = new(new JsonSerializerOptions { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });

    /// <summary>On one line.</summary>
    public static LineUpJson Compact { get; } = new(new JsonSerializerOptions { PropertyNamingPolicy = JsonNamingPolicy.CamelCase, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
}
