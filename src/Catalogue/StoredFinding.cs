using System.Text.Json;
using Athwart.Quantities;

namespace Athwart.Catalogue;

/// <summary>A finding as it lies in the database: words and bare numbers, so that the layout on disk does not hang on how the types in memory are built.</summary>
internal sealed record StoredFinding
{
    public string Kind { get; init; } = "";

    public string Severity { get; init; } = "";

    public string Message { get; init; } = "";

    public string Remedy { get; init; } = "";

    public string? Role { get; init; }

    public long? From { get; init; }

    public long? To { get; init; }

    public string? File { get; init; }

    public double Confidence { get; init; }

    public double? Size { get; init; }

    public string SizeUnit { get; init; } = "";

    public StoredEvidence[] Evidence { get; init; } = [];

    public static StoredFinding Of(Finding finding) => new()
    {
        Kind = finding.Kind,
        Severity = finding.Severity.ToString(),
        Message = finding.Message,
        Remedy = finding.Remedy,
        Role = finding.Role?.ToString(),
        From = finding.Range?.From.Value,
        To = finding.Range?.To.Value,
        File = finding.File,
        Confidence = finding.Confidence,
        Size = finding.Size,
        SizeUnit = finding.SizeUnit,
        Evidence = [.. finding.Evidence.Select(e => new StoredEvidence(e.Name, e.Value, e.Unit))],
    };

    public static Finding Parse(string json)
    {
        var stored = JsonSerializer.Deserialize(json, StoredJson.Default.StoredFinding) ?? new StoredFinding();
        return new()
        {
            Kind = stored.Kind,
            Severity = Enum.Parse<FindingSeverity>(stored.Severity),
            Message = stored.Message,
            Remedy = stored.Remedy,
            Role = stored.Role is null ? null : Enum.Parse<ChannelRole>(stored.Role),
            Range = stored is { From: { } from, To: { } to } ? FrameRange.FromFrames(from, to) : null,
            File = stored.File,
            Confidence = stored.Confidence,
            Size = stored.Size,
            SizeUnit = stored.SizeUnit,
            Evidence = [.. stored.Evidence.Select(e => new Evidence(e.Name, e.Value, e.Unit))],
        };
    }
}

/// <summary>One number a stored finding rests on.</summary>
internal sealed record StoredEvidence(string Name, double Value, string Unit);
