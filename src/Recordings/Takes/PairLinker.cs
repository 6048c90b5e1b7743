using System.Globalization;

namespace Athwart.Recordings;

/// <summary>Finds the two mono rows that are two channels of one recording: by iXML FILE_SET first, else by name; always of one folder, length, rate, format and time reference.</summary>
internal static class PairLinker
{
    private const string MidFunction = "M-MID_SIDE";
    private const string SideFunction = "S-MID_SIDE";

    public static List<TakePair> Link(IReadOnlyList<TakeRow> rows)
    {
        var mono = rows.Where(r => r.First.ChannelCount == 1).ToList();
        var pairs = ByFamily(mono).ToList();
        var joined = pairs.SelectMany(p => new[] { p.First, p.Second }).ToHashSet();
        pairs.AddRange(ByName([.. mono.Where(r => !joined.Contains(r))]));
        return pairs;
    }

    private static IEnumerable<TakePair> ByFamily(List<TakeRow> mono)
    {
        var groups = mono
            .Where(r => r.First.Family.Length > 0)
            .GroupBy(r => (r.First.Folder, r.First.Family, r.First.SampleRateHertz, r.First.Format, r.FrameCount, r.First.TimeReference));
        foreach (var group in groups)
        {
            var members = group.ToList();
            if (members.Count > 2)
                members = MidAndSide(members);
            if (members.Count != 2 || IsSameChannel(members[0].First, members[1].First))
                continue;
            var (first, second) = Ordered(members[0], members[1]);
            yield return new(first, second, StemOf(first, second), $"They share the iXML FILE_SET family '{group.Key.Family}'.");
        }
    }

    /// <summary>Of more than two files of one family only a mid and a side that say so are a pair.</summary>
    private static List<TakeRow> MidAndSide(List<TakeRow> members)
    {
        var mid = members.Where(m => HasFunction(m, MidFunction)).ToList();
        var side = members.Where(m => HasFunction(m, SideFunction)).ToList();
        return mid.Count == 1 && side.Count == 1 ? [mid[0], side[0]] : [];
    }

    private static bool HasFunction(TakeRow row, string function) => string.Equals(row.First.TrackOf(0).Function, function, StringComparison.OrdinalIgnoreCase);

    /// <summary>A copy of a file is no second channel.</summary>
    private static bool IsSameChannel(FileFacts a, FileFacts b)
    {
        var (x, y) = (a.Production?.TrackAt(0), b.Production?.TrackAt(0));
        return string.Equals(a.Production?.FileSet?.Index, b.Production?.FileSet?.Index, StringComparison.Ordinal) && x?.ChannelIndex == y?.ChannelIndex && string.Equals(x?.Name, y?.Name, StringComparison.Ordinal);
    }

    /// <summary>The order of the recorder: its channel, else its place in the set, else the name.</summary>
    private static (TakeRow First, TakeRow Second) Ordered(TakeRow a, TakeRow b) =>
        Comparer<(int, int, int, string)>.Default.Compare(Place(a), Place(b)) <= 0 ? (a, b) : (b, a);

    private static (int Channel, int Index, int Name, string Path) Place(TakeRow row)
    {
        var channel = row.First.Production?.TrackAt(0)?.ChannelIndex ?? int.MaxValue;
        var index = int.TryParse(row.First.Production?.FileSet?.Index, NumberStyles.None, CultureInfo.InvariantCulture, out var i) ? i : int.MaxValue;
        return (channel, index, PairName.Parse(row.Stem)?.Order ?? int.MaxValue, row.First.Path);
    }

    private static string StemOf(TakeRow first, TakeRow second) =>
        PairName.Parse(first.Stem) is { } a && PairName.Parse(second.Stem) is { } b && string.Equals(a.Stem, b.Stem, StringComparison.Ordinal) ? a.Stem : first.Stem;

    private static IEnumerable<TakePair> ByName(List<TakeRow> mono)
    {
        var groups = mono
            .Select(r => (Row: r, Name: PairName.Parse(r.Stem)))
            .Where(r => r.Name is not null)
            .GroupBy(r => (r.Row.First.Folder, r.Name!.Stem, r.Name.Style))
            .Where(g => g.Count() >= 2);
        foreach (var group in groups)
        {
            var members = group.OrderBy(m => m.Name!.Order).ToList();
            var (a, b) = (members[0], members[1]);
            var reason = members.Count > 2 ? $"{members.Count} mono files have this name" : WhyNot(a.Row, b.Row, b.Name!.Order - a.Name!.Order, group.Key.Style);
            if (reason.Length == 0)
                yield return new(a.Row, b.Row, group.Key.Stem, $"Their names are '{group.Key.Stem}' and a channel each.");
            foreach (var member in members.Where(_ => reason.Length > 0))
                member.Row.Resemblance = $"'{Path.GetFileName(member.Row.First.Path)}' is named like a channel of '{group.Key.Stem}' and was not joined: {reason}.";
        }
    }

    /// <summary>The reason not to join two files named as a pair; empty when there is none.</summary>
    private static string WhyNot(TakeRow a, TakeRow b, int step, string style)
    {
        var (x, y) = (a.First, b.First);
        if (step != 1)
            return "their channel numbers do not follow one another";
        if (x.SampleRateHertz != y.SampleRateHertz || x.Format != y.Format)
            return string.Create(CultureInfo.InvariantCulture, $"one holds {x.Format} at {x.SampleRateHertz} Hz, the other {y.Format} at {y.SampleRateHertz} Hz");
        if (a.FrameCount != b.FrameCount)
            return string.Create(CultureInfo.InvariantCulture, $"one has {a.FrameCount} frames, the other {b.FrameCount}");
        if (x.TimeReference != y.TimeReference)
            return string.Create(CultureInfo.InvariantCulture, $"their time references are {Time(x)} and {Time(y)}");
        if (x.Family.Length > 0 && y.Family.Length > 0 && !string.Equals(x.Family, y.Family, StringComparison.Ordinal))
            return "their iXML FILE_SET families differ";
        if (x.TimeReference is null && string.Equals(style, PairName.BareNumber, StringComparison.Ordinal))
            return "neither has a time reference, and a number alone may as well count takes; end their names in _M and _S to join them";
        return "";
    }

    private static string Time(FileFacts file) => file.TimeReference is { } time ? time.ToString(CultureInfo.InvariantCulture) : "none";
}

/// <summary>Two mono rows that are one recording.</summary>
internal sealed record TakePair(TakeRow First, TakeRow Second, string Stem, string Link)
{
    /// <summary>The sentences that say why.</summary>
    public IEnumerable<string> Evidence()
    {
        var (a, b) = (First.First, Second.First);
        var time = a.TimeReference is { } t ? string.Create(CultureInfo.InvariantCulture, $"and the time reference {t}") : "and no time reference";
        yield return string.Create(CultureInfo.InvariantCulture, $"'{Path.GetFileName(a.Path)}' and '{Path.GetFileName(b.Path)}' are two channels of one recording. {Link}");
        yield return string.Create(CultureInfo.InvariantCulture, $"Both have {First.FrameCount} frames of {a.Format} at {a.SampleRateHertz} Hz {time}.");
    }
}
