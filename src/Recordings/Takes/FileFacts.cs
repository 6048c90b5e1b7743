using Athwart.Quantities;

namespace Athwart.Recordings;

/// <summary>What the assembler needs to know of a file once it is closed again.</summary>
internal sealed class FileFacts
{
    public required int Order { get; init; }

    public required string Path { get; init; }

    public required int ChannelCount { get; init; }

    public required int SampleRateHertz { get; init; }

    public required SampleFormat Format { get; init; }

    public required long FrameCount { get; init; }

    public required BroadcastExtension? Broadcast { get; init; }

    public required ProductionNotes? Production { get; init; }

    public required IReadOnlyList<Marker> Markers { get; init; }

    public required IReadOnlyList<InfoTag> Info { get; init; }

    public required IReadOnlyList<Finding> Findings { get; init; }

    public string Folder => System.IO.Path.GetDirectoryName(Path) ?? "";

    public string Stem => System.IO.Path.GetFileNameWithoutExtension(Path);

    /// <summary>The family of iXML FILE_SET; empty when none is stated.</summary>
    public string Family => Production?.FileSet?.FamilyUid ?? "";

    /// <summary>Samples since midnight: bext, else (or where bext has 0) iXML SPEED where it counts in the file's own rate; null when neither says.</summary>
    public ulong? TimeReference => Broadcast is { TimeReference: > 0 } broadcast ? broadcast.TimeReference : SpeedTime ?? Broadcast?.TimeReference;

    private ulong? SpeedTime => Production?.Speed is { TimestampSamplesSinceMidnight: { } samples } speed && (speed.TimestampSampleRate ?? SampleRateHertz) == SampleRateHertz ? samples : null;

    public bool HasFormatOf(FileFacts other) => ChannelCount == other.ChannelCount && SampleRateHertz == other.SampleRateHertz && Format == other.Format;

    public static FileFacts Read(string path, int order)
    {
        using var file = RecordingFile.Open(path);
        return new()
        {
            Order = order,
            Path = path,
            ChannelCount = file.ChannelCount,
            SampleRateHertz = file.SampleRateHertz,
            Format = file.Format,
            FrameCount = file.FrameCount,
            Broadcast = file.Broadcast,
            Production = file.Production,
            Markers = file.Markers,
            Info = file.Info,
            Findings = file.Findings,
        };
    }

    /// <summary>The track of a channel: iXML by interleave, else the recorder's lines xTRKn=name in the bext description (common practice, no source).</summary>
    public TakeTrack TrackOf(int channel)
    {
        if (Production?.TrackAt(channel) is { } track)
            return new(track.Name, track.Function, Path);
        return new(DescribedName(channel + 1), "", Path);
    }

    private string DescribedName(int number)
    {
        foreach (var line in (Broadcast?.Description ?? "").Split('\r', '\n'))
        {
            var equals = line.IndexOf('=', StringComparison.Ordinal);
            if (equals > 0 && line[..equals].TrimStart().TrimStart('s', 'z').Equals(FormattableString.Invariant($"TRK{number}"), StringComparison.OrdinalIgnoreCase))
                return line[(equals + 1)..].Trim();
        }

        return "";
    }
}
