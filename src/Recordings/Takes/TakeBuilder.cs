using Athwart.Quantities;

namespace Athwart.Recordings;

/// <summary>Rows of files to the description of a take.</summary>
internal static class TakeBuilder
{
    public static TakeDescription Build(IReadOnlyList<TakeRow> rows, string name, IReadOnlyList<string> evidence)
    {
        var first = rows[0].First;
        var isSplit = rows.Any(r => r.Files.Count > 1);
        var parts = Parts(rows);
        var files = rows.SelectMany(r => r.Files).ToList();
        return new()
        {
            Name = name,
            Parts = [.. parts.Select(p => p.Part)],
            Join = rows.Count > 1 ? (isSplit ? JoinKind.SplitMonoPair : JoinKind.MonoPair) : isSplit ? JoinKind.Split : JoinKind.Single,
            Evidence = evidence,
            Tracks = Tracks(rows),
            ChannelCount = rows.Sum(r => r.First.ChannelCount),
            SampleRateHertz = first.SampleRateHertz,
            Format = first.Format,
            FrameCount = rows[0].FrameCount,
            Broadcast = first.Broadcast ?? rows[^1].First.Broadcast,
            Production = Production(rows),
            Markers = [.. parts.SelectMany(p => p.File.Markers.Select(m => m with { Frame = m.Frame + p.Part.FirstFrame })).Distinct().OrderBy(m => m.Frame)],
            Info = [.. files.SelectMany(f => f.Info).Distinct()],
            Findings = [.. files.SelectMany(f => f.Findings), .. rows.Where(r => r.Resemblance.Length > 0).Select(NotJoined)],
        };
    }

    private static List<(TakePart Part, FileFacts File)> Parts(IReadOnlyList<TakeRow> rows)
    {
        var parts = new List<(TakePart, FileFacts)>();
        var channel = 0;
        foreach (var row in rows)
        {
            long frame = 0;
            foreach (var file in row.Files)
            {
                parts.Add((new(file.Path, frame, file.FrameCount, channel, file.ChannelCount), file));
                frame += file.FrameCount;
            }

            channel += row.First.ChannelCount;
        }

        return parts;
    }

    private static List<TakeTrack> Tracks(IReadOnlyList<TakeRow> rows) =>
        [.. rows.SelectMany(r => Enumerable.Range(0, r.First.ChannelCount).Select(r.First.TrackOf))];

    private static ProductionNotes? Production(IReadOnlyList<TakeRow> rows)
    {
        var notes = rows.Select(r => r.First.Production).FirstOrDefault(p => p is not null);
        if (notes is null || rows.Count == 1)
            return notes;
        // Each mono file calls itself interleave 1; in the take they are 1 and 2.
        var tracks = rows.Select((r, i) => (r.First.Production?.TrackAt(0) ?? new Track(null, null, "", "")) with { InterleaveIndex = i + 1 });
        return notes with { Tracks = [.. tracks] };
    }

    private static Finding NotJoined(TakeRow row) => new()
    {
        Kind = "not-joined",
        Severity = FindingSeverity.Note,
        Message = row.Resemblance,
        Remedy = "If they belong together give both the same length and time reference, or the same iXML FILE_SET family.",
        File = row.First.Path,
    };
}
