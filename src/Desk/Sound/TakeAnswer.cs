using System.Text.Json.Serialization;
using Athwart.Jobs.Listening;
using Athwart.Quantities;

namespace Athwart.Desk.Sound;

/// <summary>What the browser needs to know of a take before it draws and plays it.</summary>
internal sealed record TakeAnswer(
    string Id,
    string Key,
    string Name,
    long Frames,
    int Rate,
    string Format,
    bool HasSide,
    string Roles,
    int TopLevel,
    int TopSpectrum,
    IReadOnlyList<MarkerAnswer> Markers,
    IReadOnlyList<FindingAnswer> Findings)
{
    /// <summary>Of an open take, with what was found in it.</summary>
    public static TakeAnswer Of(ListeningTake take, IReadOnlyList<Finding> findings) => new(
        take.Catalogued.Id.Value,
        take.Key,
        take.Catalogued.Name,
        take.Recording.FrameCount,
        take.Recording.SampleRateHertz,
        take.Catalogued.Format,
        take.Roles.SideChannel is not null,
        take.Roles.Explanation,
        new PeakLayout(take.Recording.FrameCount).TopLevel,
        SpectrogramTiles.TopLevel(take.Recording.FrameCount),
        [.. take.Description.Markers.Select(m => new MarkerAnswer(m.Frame, m.Length, m.Label))],
        [.. findings.Select(FindingAnswer.Of)]);
}

/// <summary>A marker of the recorder or of the recordist.</summary>
internal sealed record MarkerAnswer(long Frame, long Length, string Label);

/// <summary>A finding with its place in frames; null when it concerns the whole take.</summary>
internal sealed record FindingAnswer(string Kind, string Severity, string Message, string Remedy, long? From, long? To, IReadOnlyList<string> Evidence)
{
    public static FindingAnswer Of(Finding finding) => new(
        finding.Kind,
        FindingWords.Severity(finding.Severity),
        finding.Message,
        finding.Remedy,
        finding.Range?.From.Value,
        finding.Range?.To.Value,
        [.. finding.Evidence.Select(e => e.ToString())]);
}

/// <summary>Words for findings on the page.</summary>
internal static class FindingWords
{
    /// <summary>'note', 'caution' or 'fault'.</summary>
    public static string Severity(FindingSeverity severity) => severity switch
    {
        FindingSeverity.Fault => "fault",
        FindingSeverity.Caution => "caution",
        _ => "note",
    };
}

/// <summary>How far something that is being made has come.</summary>
internal sealed record MakingAnswer(double Fraction);

/// <summary>What went wrong, in words.</summary>
internal sealed record TroubleAnswer(string Message);

/// <summary>The JSON of the sound endpoints, generated when the program is built.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(TakeAnswer))]
[JsonSerializable(typeof(MakingAnswer))]
[JsonSerializable(typeof(TreatedAnswer))]
[JsonSerializable(typeof(TroubleAnswer))]
[JsonSerializable(typeof(WeightedPowers))]
internal sealed partial class SoundJson : JsonSerializerContext;
