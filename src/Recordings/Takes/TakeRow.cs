namespace Athwart.Recordings;

/// <summary>Files that follow one another to the sample; one file at first.</summary>
internal sealed class TakeRow(FileFacts first)
{
    public List<FileFacts> Files { get; } = [first];

    public List<string> Evidence { get; } = [];

    /// <summary>The name without folder, extension and sequence number.</summary>
    public string Stem { get; set; } = first.Stem;

    public FileFacts First => Files[0];

    public long FrameCount => Files.Sum(f => f.FrameCount);

    /// <summary>Why a like file was not joined; empty when there is none.</summary>
    public string Resemblance { get; set; } = "";
}
