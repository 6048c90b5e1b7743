namespace Athwart.Recordings;

/// <summary>Puts split files and mono pairs back together.</summary>
/// <remarks>
/// Nothing is joined on resemblance alone. Files one after the other need the same folder, format and rate, a time reference that continues to the sample, and one
/// iXML FILE_SET family or names that count on. Two mono files beside one another need the same folder, length, format, rate and time reference, and one family or
/// names that differ in the channel only; a bare number as the channel needs a time reference. Where more than two files qualify none are joined, unless
/// one family has exactly one mid and one side by their iXML FUNCTION.
/// </remarks>
public static class TakeAssembler
{
    /// <summary>Reads the headers of the files, joins what belongs together, and describes every take.</summary>
    /// <param name="paths">The files, in any order; a path named twice counts once.</param>
    /// <param name="cancellationToken">Stops between files.</param>
    public static TakeAssembly Assemble(IReadOnlyList<string> paths, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(paths);
        var files = new List<FileFacts>();
        var refused = new List<RefusedFile>();
        foreach (var path in paths.Distinct(StringComparer.Ordinal))
        {
            cancellationToken.ThrowIfCancellationRequested();
            try
            {
                files.Add(FileFacts.Read(path, files.Count));
            }
            catch (RecordingException e)
            {
                refused.Add(new(path, e));
            }
        }

        return new(Describe(files), refused);
    }

    private static List<TakeDescription> Describe(List<FileFacts> files)
    {
        var rows = SplitLinker.Link(files);
        var pairs = PairLinker.Link(rows);
        var paired = pairs.SelectMany(p => new[] { p.First, p.Second }).ToHashSet();
        var takes = pairs
            .Select(p => (Order: Math.Min(p.First.First.Order, p.Second.First.Order), p.First.First.Folder, Take: TakeBuilder.Build([p.First, p.Second], p.Stem, [.. p.Evidence(), .. p.First.Evidence, .. p.Second.Evidence])))
            .Concat(rows.Where(r => !paired.Contains(r)).Select(r => (r.First.Order, r.First.Folder, Take: TakeBuilder.Build([r], r.Stem, r.Evidence))))
            .OrderBy(t => t.Order)
            .ToList();
        var names = takes.ToLookup(t => (t.Folder, t.Take.Name));
        // Where two takes would have one name each keeps the whole name of its first file.
        return [.. takes.Select(t => names[(t.Folder, t.Take.Name)].Count() == 1 ? t.Take : t.Take with { Name = Path.GetFileNameWithoutExtension(t.Take.Parts[0].Path) })];
    }
}
