using Athwart.Figures.Findings;
using Athwart.Jobs.Evidences;

namespace Athwart.Jobs.Explain;

/// <summary>A made file for each kind of finding about files.</summary>
internal static class ExampleFiles
{
    private const long Sound = 17_280_000;

    public static FileContents Of(string kind)
    {
        var (declared, data) = kind switch
        {
            "header-not-finished" => (0L, Sound),
            "cut-short" => (Sound, Sound / 3),
            "size-wrapped" => (1_200_000_000L, 5_494_967_296L),
            "rf64-without-ds64" => (4_294_967_295L, 5_494_967_296L),
            "partial-frame" => (Sound, Sound - 4),
            _ => (Sound, Sound),
        };
        var list = new List<FileStretch> { new("fmt", 20, 40, 40, false), new("bext", 68, 858, 858, false) };
        if (kind is not "rf64-without-ds64" and not "header-not-finished")
            list.Add(new("iXML", 934, 2211, kind is "chunk-cut-short" ? 9000 : 2211, false));
        list.Add(new("data", 3200, data, declared, true));
        if (kind is "trailing-bytes" or "second-data-chunk")
            list.Add(new(kind is "trailing-bytes" ? "rest" : "data", 3200 + data, 540_000, 540_000, kind is not "trailing-bytes"));
        return new("T05.WAV", list[^1].Offset + list[^1].Length, list);
    }
}
