using System.Globalization;
using Athwart.Recordings;

namespace Athwart.Jobs.Render;

/// <summary>What a decoded file takes over from its take: times and markers follow the cut and the rate, tracks become left and right.</summary>
public static class StereoMetadata
{
    /// <summary>The metadata of a stereo or mono rendering.</summary>
    /// <param name="take">The take.</param>
    /// <param name="recipe">The recipe, with source, treatment and output format set.</param>
    public static RecipeMetadata For(TakeDescription take, Recipe recipe)
    {
        ArgumentNullException.ThrowIfNull(take);
        ArgumentNullException.ThrowIfNull(recipe);
        return RecipeMetadata.From(Broadcast(take, recipe), Production(take, recipe), take.Info, MarkersInside(take.Markers, recipe));
    }

    /// <summary>Markers that lie in the cut, in frames of the output.</summary>
    public static IReadOnlyList<Marker> MarkersInside(IReadOnlyList<Marker> markers, Recipe recipe)
    {
        ArgumentNullException.ThrowIfNull(markers);
        ArgumentNullException.ThrowIfNull(recipe);
        var source = recipe.Source;
        return
        [
            .. markers.Where(m => m.Frame >= source.FromFrame && m.Frame < source.ToFrame).Select(m => m with
            {
                Frame = AtOutput(m.Frame - source.FromFrame, recipe),
                Length = AtOutput(Math.Min(m.Length, source.ToFrame - m.Frame), recipe),
            }),
        ];
    }

    /// <summary>The line that a rendering adds to the coding history (EBU R 98).</summary>
    public static string CodingHistoryLine(Recipe recipe)
    {
        ArgumentNullException.ThrowIfNull(recipe);
        var (output, treatment) = (recipe.Output, recipe.Treatment);
        var word = output.Word.Format().ContainerBits;
        var work = output.Kind == RenderKind.Mono ? "mid alone"
            : treatment.SideLevelDecibels is { } level ? string.Create(CultureInfo.InvariantCulture, $"mid-side decoded; side {level:0.##} dB")
            : "mid-side decoded; no side";
        var trim = treatment.TrimDecibels == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"; trim {treatment.TrimDecibels:0.###} dB");
        return string.Create(CultureInfo.InvariantCulture, $"A=PCM,F={output.SampleRateHertz},W={word},M={(output.Kind == RenderKind.Mono ? "mono" : "stereo")},T=Athwart; {work}{trim}\r\n");
    }

    private static BroadcastExtension Broadcast(TakeDescription take, Recipe recipe)
    {
        var parent = take.Broadcast ?? new BroadcastExtension { Description = take.Name, Originator = "Athwart" };
        var history = parent.CodingHistory;
        if (history.Length > 0 && !history.EndsWith('\n'))
            history += "\r\n";
        return parent with
        {
            Version = 2,
            TimeReference = (ulong)((UInt128)(parent.TimeReference + (ulong)recipe.Source.FromFrame) * (uint)recipe.Output.SampleRateHertz / (uint)recipe.Source.SampleRateHertz),
            // Measured on the raw pair, if at all.
            LoudnessValue = null,
            LoudnessRange = null,
            MaxTruePeakLevel = null,
            MaxMomentaryLoudness = null,
            MaxShortTermLoudness = null,
            CodingHistory = history + CodingHistoryLine(recipe),
        };
    }

    private static ProductionNotes? Production(TakeDescription take, Recipe recipe) => take.Production is not { } notes ? null : notes with
    {
        FileSet = null,
        Tracks = recipe.Output.Kind == RenderKind.Mono
            ? [new(1, 1, "Mid", "M-MID_SIDE")]
            : [new(1, 1, "Left", "LEFT"), new(2, 2, "Right", "RIGHT")],
        Speed = notes.Speed is not { } speed ? null : speed with
        {
            FileSampleRate = recipe.Output.SampleRateHertz,
            AudioBitDepth = recipe.Output.Word.Format().ContainerBits,
            TimestampSampleRate = recipe.Output.SampleRateHertz,
            TimestampSamplesSinceMidnight = speed.TimestampSamplesSinceMidnight is not { } stamp ? null
                : (ulong)((UInt128)stamp * (uint)recipe.Output.SampleRateHertz / (uint)(speed.TimestampSampleRate ?? recipe.Source.SampleRateHertz))
                    + (ulong)AtOutput(recipe.Source.FromFrame, recipe),
        },
        History = new(notes.History?.OriginalFilename is { Length: > 0 } original ? original : FileName(take), FileName(take), notes.FileUid),
    };

    private static string FileName(TakeDescription take) => Path.GetFileName(take.Parts[0].Path);

    private static long AtOutput(long frames, Recipe recipe) =>
        (long)((Int128)frames * recipe.Output.SampleRateHertz / recipe.Source.SampleRateHertz);
}
