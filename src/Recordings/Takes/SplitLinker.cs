using System.Globalization;

namespace Athwart.Recordings;

/// <summary>Joins files that a recorder cut at a size limit: same folder, format and rate, a time reference that continues to the sample, and either one iXML family or names that count on.</summary>
internal static class SplitLinker
{
    public static List<TakeRow> Link(IReadOnlyList<FileFacts> files)
    {
        var next = UniqueLinks(files);
        var followers = next.Values.Select(l => l.To).ToHashSet();
        var rows = new List<TakeRow>();
        foreach (var file in files.Where(f => !followers.Contains(f)))
        {
            var row = new TakeRow(file);
            for (var at = file; next.TryGetValue(at, out var link); at = link.To)
            {
                row.Evidence.Add(link.Evidence);
                if (row.Files.Count == 1)
                    row.Stem = link.Stem;
                row.Files.Add(link.To);
            }

            rows.Add(row);
        }

        return rows;
    }

    /// <summary>One follower a file, and one file a follower; where there are more nothing is joined.</summary>
    private static Dictionary<FileFacts, Step> UniqueLinks(IReadOnlyList<FileFacts> files)
    {
        var byTime = files.Where(f => f.TimeReference is not null).ToLookup(f => (f.Folder, f.SampleRateHertz, Time: f.TimeReference!.Value));
        var found = files
            .Select(f => FollowerOf(f, byTime))
            .OfType<Step>()
            .ToLookup(l => l.To);
        return found.Where(g => g.Count() == 1).Select(g => g.First()).ToDictionary(l => l.From);
    }

    private static Step? FollowerOf(FileFacts file, ILookup<(string Folder, int SampleRateHertz, ulong Time), FileFacts> byTime)
    {
        // The clock passes midnight, but some recorders count on.
        if (file.TimeReference is not { } time || file.FrameCount == 0)
            return null;
        var (end, day) = (time + (ulong)file.FrameCount, 86_400UL * (ulong)file.SampleRateHertz);
        var after = byTime[(file.Folder, file.SampleRateHertz, end)];
        if (end >= day)
            after = after.Concat(byTime[(file.Folder, file.SampleRateHertz, end % day)]);
        var links = after.Where(f => !ReferenceEquals(f, file) && f.HasFormatOf(file)).Select(f => Judge(file, f)).OfType<Step>().ToList();
        if (links.Count > 1)
            links.RemoveAll(l => !l.NamesCountOn);
        return links.Count == 1 ? links[0] : null;
    }

    private static Step? Judge(FileFacts from, FileFacts to)
    {
        var sameExtension = string.Equals(Path.GetExtension(from.Path), Path.GetExtension(to.Path), StringComparison.OrdinalIgnoreCase);
        var namesCountOn = SequenceNames.Follows(from.Stem, to.Stem, out var stem) && sameExtension;
        var sameFamily = from.Family.Length > 0 && string.Equals(from.Family, to.Family, StringComparison.Ordinal) && SameTracks(from, to);
        // Two families are two recordings, however well one follows the other.
        var otherFamily = from.Family.Length > 0 && to.Family.Length > 0 && !string.Equals(from.Family, to.Family, StringComparison.Ordinal);
        if (otherFamily || !(sameFamily || namesCountOn))
            return null;
        var link = sameFamily ? $"they share the iXML FILE_SET family '{from.Family}'" : "their names count on";
        var evidence = string.Create(CultureInfo.InvariantCulture, $"'{Path.GetFileName(to.Path)}' continues '{Path.GetFileName(from.Path)}': {link}, both hold {from.Format} at {from.SampleRateHertz} Hz, and the time reference {to.TimeReference} is {from.TimeReference} plus the {from.FrameCount} frames before it.");
        return new(from, to, namesCountOn ? stem : from.Stem, namesCountOn, evidence);
    }

    /// <summary>Mono files of one family are told apart by their tracks.</summary>
    private static bool SameTracks(FileFacts a, FileFacts b)
    {
        for (var c = 0; c < a.ChannelCount; c++)
        {
            var (x, y) = (a.Production?.TrackAt(c), b.Production?.TrackAt(c));
            if (x?.ChannelIndex != y?.ChannelIndex || !string.Equals(x?.Name, y?.Name, StringComparison.Ordinal) || !string.Equals(x?.Function, y?.Function, StringComparison.Ordinal))
                return false;
        }

        return true;
    }

    private sealed record Step(FileFacts From, FileFacts To, string Stem, bool NamesCountOn, string Evidence);
}
