using Athwart.Recordings;

namespace Athwart.Jobs.Render;

/// <summary>How a take's metadata follow a cut and a sample rate, whichever job writes them.</summary>
internal static class CutMetadata
{
    /// <summary>The tracks of a stereo file, in the words of iXML.</summary>
    public static IReadOnlyList<Track> Stereo { get; } = [new(1, 1, "Left", "LEFT"), new(2, 2, "Right", "RIGHT")];

    /// <summary>The track of a file with the mid alone.</summary>
    public static IReadOnlyList<Track> Mid { get; } = [new(1, 1, "Mid", "M-MID_SIDE")];

    /// <summary>The tracks of a raw pair.</summary>
    public static IReadOnlyList<Track> RawPair { get; } = [.. Mid, new(2, 2, "Side", "S-MID_SIDE")];

    /// <summary>Frames of a take in frames of a file of another rate, rounded down.</summary>
    public static long AtRate(long frames, int takeRate, int fileRate) => (long)((Int128)frames * fileRate / takeRate);

    /// <summary>Samples since midnight of a cut's first frame, at the rate of the file.</summary>
    public static ulong TimeReference(TakeDescription take, long fromFrame, int fileRate) =>
        (ulong)(((UInt128)(take.Broadcast?.TimeReference ?? 0) + (ulong)fromFrame) * (uint)fileRate / (uint)take.SampleRateHertz);

    /// <summary>The markers inside a cut, in frames of the file; a length ends with the cut.</summary>
    /// <param name="markers">The take's.</param>
    /// <param name="fromFrame">The cut's first frame.</param>
    /// <param name="toFrame">The frame after its last.</param>
    /// <param name="takeRate">The take's rate.</param>
    /// <param name="fileRate">The file's rate.</param>
    /// <param name="stretch">How much longer the sound became by playing it slower; 1 as recorded.</param>
    public static IReadOnlyList<Marker> Markers(IReadOnlyList<Marker> markers, long fromFrame, long toFrame, int takeRate, int fileRate, double stretch = 1) =>
    [
        .. markers.Where(m => m.Frame >= fromFrame && m.Frame < toFrame).Select(m => m with
        {
            Frame = AtRate(Stretched(m.Frame - fromFrame, stretch), takeRate, fileRate),
            Length = AtRate(Stretched(Math.Min(m.Length, toFrame - m.Frame), stretch), takeRate, fileRate),
        }),
    ];

    private static long Stretched(long frames, double stretch) => stretch == 1 ? frames : (long)(frames * stretch);

    /// <summary>Where the sound comes from: the name it was first given, and the file it was read from.</summary>
    public static History History(TakeDescription take)
    {
        var parent = Path.GetFileName(take.Parts[0].Path);
        return new(take.Production?.History?.OriginalFilename is { Length: > 0 } original ? original : parent, parent, take.Production?.FileUid ?? "");
    }

    /// <summary>A coding history with one more line (EBU R 98: each ends with CR LF).</summary>
    public static string AddToHistory(string before, string line) =>
        (before.Length == 0 || before.EndsWith('\n') ? before : before + "\r\n") + line + "\r\n";
}
