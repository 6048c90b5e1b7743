using Athwart.Recordings;

namespace Athwart.Jobs.Deliver;

/// <summary>What an original carries and we do not understand; it goes along with the raw pair as bytes.</summary>
internal static class UnknownChunks
{
    /// <summary>A chunk larger than this stays behind: it is no note but a second recording.</summary>
    public const int LargestBytes = 16 * 1024 * 1024;

    private static readonly HashSet<string> Understood = new(StringComparer.Ordinal)
    {
        "fmt ", "data", "ds64", "fact", "bext", "iXML", "LIST", "cue ", "smpl", "JUNK", "junk", "PAD ", "FLLR", "PEAK",
    };

    /// <summary>Reads them from the first file of a take; files read through a library have none.</summary>
    public static IReadOnlyList<RawChunk> Read(string path)
    {
        using var file = RecordingFile.Open(path);
        return
        [
            .. file.Chunks
                .Where(c => !Understood.Contains(c.Id) && c.IsWhole && c.Size <= LargestBytes)
                .Select(c => new RawChunk(c.Id, file.ReadChunk(c, LargestBytes))),
        ];
    }
}
