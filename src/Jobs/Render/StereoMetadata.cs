using System.Globalization;
using Athwart.Jobs.Shape;
using Athwart.Recordings;

namespace Athwart.Jobs.Render;

/// <summary>What a decoded file takes over from its take: times and markers follow the cut and the rate, tracks become left and right.</summary>
public static class StereoMetadata
{
    private const int LongestDescription = 256;

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
        ArgumentNullException.ThrowIfNull(recipe);
        return CutMetadata.Markers(markers, recipe.Source.FromFrame, recipe.Source.ToFrame, recipe.Source.SampleRateHertz, recipe.Output.SampleRateHertz, TreatedChain.Stretch(recipe.Treatment.Steps));
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
        var treated = TreatmentWords.ForHistory(treatment.Name, treatment.Steps);
        var trim = treatment.TrimDecibels == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"; trim {treatment.TrimDecibels:0.###} dB");
        return string.Create(CultureInfo.InvariantCulture, $"A=PCM,F={output.SampleRateHertz},W={word},M={(output.Kind == RenderKind.Mono ? "mono" : "stereo")},T=Athwart; {treated}{work}{trim}");
    }

    private static BroadcastExtension Broadcast(TakeDescription take, Recipe recipe)
    {
        var parent = take.Broadcast ?? new BroadcastExtension { Description = take.Name, Originator = "Athwart" };
        return parent with
        {
            Version = 2,
            Description = Described(parent.Description, recipe, LongestDescription),
            TimeReference = CutMetadata.TimeReference(take, recipe.Source.FromFrame, recipe.Output.SampleRateHertz),
            // Measured on the raw pair, if at all.
            LoudnessValue = null,
            LoudnessRange = null,
            MaxTruePeakLevel = null,
            MaxMomentaryLoudness = null,
            MaxShortTermLoudness = null,
            CodingHistory = CutMetadata.AddToHistory(parent.CodingHistory, CodingHistoryLine(recipe)),
        };
    }

    private static string Described(string text, Recipe recipe, int longest)
    {
        var madeUp = recipe.Output.Kind == RenderKind.Stereo && recipe.Treatment.Steps?.Any(s => s.Kind.MakesSide) is true;
        var room = longest - (madeUp ? TreatmentWords.Labelled(" ", isMadeUp: true).Length : 0);
        return TreatmentWords.Labelled(text.Length > room ? text[..room] : text, madeUp);
    }

    private static ProductionNotes? Production(TakeDescription take, Recipe recipe) => take.Production is not { } notes ? null : notes with
    {
        FileSet = null,
        Note = Described(notes.Note, recipe, int.MaxValue),
        Tracks = recipe.Output.Kind == RenderKind.Mono ? CutMetadata.Mid : CutMetadata.Stereo,
        Speed = notes.Speed is not { } speed ? null : speed with
        {
            FileSampleRate = recipe.Output.SampleRateHertz,
            AudioBitDepth = recipe.Output.Word.Format().ContainerBits,
            TimestampSampleRate = recipe.Output.SampleRateHertz,
            TimestampSamplesSinceMidnight = speed.TimestampSamplesSinceMidnight is not { } stamp ? null
                : (ulong)((UInt128)stamp * (uint)recipe.Output.SampleRateHertz / (uint)(speed.TimestampSampleRate ?? recipe.Source.SampleRateHertz))
                    + (ulong)CutMetadata.AtRate(recipe.Source.FromFrame, recipe.Source.SampleRateHertz, recipe.Output.SampleRateHertz),
        },
        History = CutMetadata.History(take),
    };
}
