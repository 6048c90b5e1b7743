using System.Globalization;
using Athwart.Catalogue;
using Athwart.Jobs.CheckTakes;
using Athwart.Jobs.Deliver.Manifests;
using Athwart.Jobs.Deliver.Metadata;
using Athwart.Jobs.Deliver.Report;
using Athwart.Jobs.Render;
using Athwart.Jobs.Roles;
using Athwart.Jobs.Sessions;
using Athwart.Jobs.Shape;
using Athwart.Metering;
using Athwart.Metering.Direction;
using Athwart.Metering.Portrait;
using Athwart.Quantities;
using Athwart.Recordings;
using Athwart.Signals.FixedMath;

namespace Athwart.Jobs.Deliver;

/// <summary>What one delivered effect consists of.</summary>
/// <param name="Files">Its files, for the manifest.</param>
/// <param name="Card">Its part of the report.</param>
/// <param name="Catalogued">Its row in the catalogue.</param>
internal sealed record DeliveredEffectParts(IReadOnlyList<ManifestFile> Files, ReportEffect Card, DeliveredEffect Catalogued);

/// <summary>Makes the files of one effect: stereo, raw pair, mono if wanted, and the recipes.</summary>
internal sealed class EffectDelivery(SessionTake take, EffectPlan effect, DeliverRequest request, EffectMetadata metadata, EffectFileNames names)
{
    private const int BlockFrames = 16 * 1024;

    /// <summary>Columns of the pictures: as many as the report is wide.</summary>
    private const int PortraitColumns = 900;

    private const int DirectionColumns = 240;

    private readonly List<ManifestFile> _files = [];

    private TakeDescription Source => take.Description;

    private IReadOnlyList<TreatmentStep> Steps => effect.Treated?.Steps ?? [];

    private bool HasNoSide => take.Roles.SideChannel is null && effect.Treated?.MakesSide is not true;

    /// <summary>Makes the files in a folder.</summary>
    /// <param name="staging">Where they are written.</param>
    /// <param name="folder">Where they will lie in the end; recipes name their sources from there.</param>
    /// <param name="sourceHashes">SHA-256 of the originals by path, as the catalogue has them.</param>
    /// <param name="cancellation">Stops between blocks.</param>
    /// <exception cref="RenderException">It does not fit its word; the effect and its take are named.</exception>
    public DeliveredEffectParts Run(string staging, string folder, IReadOnlyDictionary<string, string> sourceHashes, CancellationToken cancellation)
    {
        try
        {
            return Make(staging, folder, sourceHashes, cancellation);
        }
        catch (RenderException e)
        {
            // The path in the staging folder means nothing to the recordist; the effect does.
            var reason = e.Message.Replace(Path.Combine(staging, HasNoSide ? names.Mono : names.Stereo) + ": ", "", StringComparison.Ordinal);
            var hint = e.Kind == RenderErrorKind.Overload ? " With --ceiling -1 only effects that need it are trimmed." : "";
            throw new RenderException(e.Kind, $"Effect '{effect.Name}' of take '{take.Name}': {reason}{hint}", e.NeededTrim, e);
        }
    }

    private DeliveredEffectParts Make(string staging, string folder, IReadOnlyDictionary<string, string> sourceHashes, CancellationToken cancellation)
    {
        using var recording = Source.Open();
        var heard = Listen(recording, cancellation);
        if (HasNoSide)
            return MakeMonoOnly(recording, heard, staging, folder, sourceHashes, cancellation);
        var recipe = Trims.Resolve(recording, Recipe(RenderKind.Stereo, sourceHashes), rate => new ProgrammeMeter(rate), 1, cancellation);
        var (stereo, meter) = Render(recording, recipe, staging, folder, names.Stereo, names.Recipe, "stereo", cancellation);
        // A side that was made up is no part of what was recorded.
        if (take.Roles.SideChannel is not null)
            WriteRawPair(recording, recipe, staging, cancellation);
        if (request.Mono || take.Roles.SideChannel is null)
        {
            // The mono shares the stereo's trim, so that the two stay at one level.
            var mono = recipe with { Output = recipe.Output with { Kind = RenderKind.Mono } };
            Render(recording, mono, staging, folder, names.Mono, names.MonoRecipe, "mono", cancellation);
        }

        return Parts(Card(heard, recipe, stereo, meter, names.Stereo));
    }

    // One channel has no side: a stereo file would be the mid twice, and a raw pair would name a side that never was.
    private DeliveredEffectParts MakeMonoOnly(Take recording, Heard heard, string staging, string folder, IReadOnlyDictionary<string, string> sourceHashes, CancellationToken cancellation)
    {
        var recipe = Trims.Resolve(recording, Recipe(RenderKind.Mono, sourceHashes), rate => new ProgrammeMeter(rate), 1, cancellation);
        var (mono, meter) = Render(recording, recipe, staging, folder, names.Mono, names.MonoRecipe, "mono", cancellation);
        return Parts(Card(heard, recipe, mono, meter, names.Mono));
    }

    private DeliveredEffectParts Parts(ReportEffect card) =>
        new(_files, card, new(effect.Id, effect.Name, [.. _files.Select(f => new DeliveredFile(f.Kind, f.Path, f.Bytes, f.Sha256))], effect.Treated?.MakesSide is true));

    private Heard Listen(Take recording, CancellationToken cancellation)
    {
        var gain = effect.SideLevel.AmplitudeRatio;
        var meter = new TakeMeter(Source.SampleRateHertz, TakeChecker.ScaleOf(Source.Format), new MeterSettings { SideGain = gain, Faults = Steps.Count == 0 });
        var chain = Steps.Count == 0 ? null : TreatedStream.Open(recording, take.Roles, Steps, gain, effect.From, effect.To);
        var length = chain?.Length ?? effect.To - effect.From;
        var portrait = new PortraitMeter(length, Source.SampleRateHertz, (int)Math.Clamp(length, 1, PortraitColumns), gain);
        var direction = HasNoSide ? null : new DirectionMeter(length, Source.SampleRateHertz, DirectionColumns);
        void Hear(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
        {
            cancellation.ThrowIfCancellationRequested();
            meter.Add(mid, side);
            portrait.Add(mid, side);
            direction?.Add(mid, side);
        }

        if (chain is null)
            RoleBlocks.ForEach(recording, take.Roles, effect.From, effect.To, BlockFrames, (_, mid, side) => Hear(mid, side));
        else
            TreatedBlocks.ForEach(chain, effect.From, BlockFrames, Hear);
        var measures = meter.Complete();
        return new(measures, portrait.Complete(), direction?.Complete(), chain is null ? measures : AsRecorded(recording, cancellation));
    }

    // Faults are those of the recording, whatever was done to it.
    private TakeMeasures AsRecorded(Take recording, CancellationToken cancellation)
    {
        var meter = new TakeMeter(Source.SampleRateHertz, TakeChecker.ScaleOf(Source.Format), new MeterSettings { SideGain = effect.SideLevel.AmplitudeRatio });
        RoleBlocks.ForEach(recording, take.Roles, effect.From, effect.To, BlockFrames, (_, mid, side) =>
        {
            cancellation.ThrowIfCancellationRequested();
            meter.Add(mid, side);
        });
        return meter.Complete();
    }

    private Recipe Recipe(RenderKind kind, IReadOnlyDictionary<string, string> sourceHashes)
    {
        var source = RecipeSources.From(Source, take.Roles.MidChannel + 1, (take.Roles.SideChannel ?? take.Roles.MidChannel) + 1);
        return new()
        {
            Program = ProgramName.WithVersion,
            Source = source with
            {
                Take = take.Name,
                InvertSide = take.Roles.SideInverted,
                FromFrame = effect.From,
                ToFrame = effect.To,
                Loop = effect.Loop,
                Files = [.. source.Files.Select(f => f with { Sha256 = sourceHashes.GetValueOrDefault(f.Path, "") })],
                Rig = Steps.Count > 0 ? effect.Rig : null,
            },
            Treatment = new()
            {
                Name = effect.Treated?.Name,
                Steps = Steps.Count > 0 ? Steps : null,
                SideLevelDecibels = double.IsNegativeInfinity(effect.SideLevel.Value) ? null : effect.SideLevel.Value,
                SideGain = FixedGain.AmplitudeRatio(effect.SideLevel.Value),
                Trim = request.Trim,
                FadeInFrames = effect.FadeIn,
                FadeOutFrames = effect.FadeOut,
                FadeInCurve = effect.FadeInCurve,
                FadeOutCurve = effect.FadeOutCurve,
            },
            Output = new()
            {
                Kind = kind,
                SampleRateHertz = request.SampleRateHertz ?? Source.SampleRateHertz,
                Word = request.Word ?? OutputWords.For(Source.Format),
            },
            Effect = new() { Name = effect.Name, Tags = effect.Tags, Notes = effect.Notes.Length > 0 ? effect.Notes : null },
        };
    }

    private (RenderResult Result, DeliveryMeter Meter) Render(Take recording, Recipe recipe, string staging, string folder, string file, string recipeFile, string kind, CancellationToken cancellation)
    {
        var (rate, bits) = (recipe.Output.SampleRateHertz, recipe.Output.Word.Format().ValidBits);
        var meter = new DeliveryMeter(rate, recipe.Output.Kind == RenderKind.Mono);
        var described = recipe with
        {
            Output = recipe.Output with
            {
                File = Path.Combine(folder, file),
                Metadata = RecipeMetadata.From(metadata.Broadcast(kind, rate, bits), metadata.Production(kind, rate, bits), metadata.Info(kind), metadata.Markers(rate, kind)),
            },
        };
        var result = RenderEngine.Render(recording, described, Path.Combine(staging, file), new RenderOptions { Threads = 1, Hash = true, Tap = meter }, cancellation);
        var finished = described with
        {
            Output = described.Output with
            {
                Sha256 = result.Sha256,
                Bytes = result.Bytes,
                Metadata = described.Output.Metadata with { Broadcast = RecipeBroadcast.From(result.Broadcast!) },
            },
        };
        RecipeFiles.Write(Path.Combine(staging, recipeFile), RecipeSources.ForFolder(finished, folder));
        AddSound(file, kind, result, recipe.Output.Kind == RenderKind.Mono ? 1 : 2, rate, recipe.Output.Word.Name(), meter);
        AddFile(staging, recipeFile, "recipe");
        return (result, meter);
    }

    private void WriteRawPair(Take recording, Recipe recipe, string staging, CancellationToken cancellation)
    {
        var (rate, bits) = (Source.SampleRateHertz, Source.Format.ValidBits);
        var carried = RecipeMetadata.From(metadata.Broadcast("midside", rate, bits), metadata.Production("midside", rate, bits), metadata.Info("midside"), metadata.Markers(rate, "midside"));
        var result = RenderEngine.WriteRawPair(recording, recipe, Path.Combine(staging, names.MidSide), carried, UnknownChunks.Read(Source.Parts[0].Path), new RenderOptions { Threads = 1, Hash = true }, cancellation);
        AddSound(names.MidSide, "midside", result, 2, rate, OutputWords.For(Source.Format).Name(), null);
    }

    private void AddSound(string file, string kind, RenderResult result, int channels, int rate, string word, DeliveryMeter? meter) => _files.Add(new()
    {
        Path = file,
        Kind = kind,
        Effect = effect.Name,
        Bytes = result.Bytes,
        Sha256 = result.Sha256,
        Channels = channels,
        SampleRateHertz = rate,
        Word = word,
        Frames = result.Frames,
        LoudnessLufs = meter is null ? null : JsonNumber.Finite(meter.Loudness.Integrated.Value),
        TruePeakDbtp = meter is null ? null : JsonNumber.Finite(meter.TruePeak.Value),
        SideLevelDecibels = string.Equals(kind, "stereo", StringComparison.Ordinal) ? JsonNumber.Finite(effect.SideLevel.Value) : null,
        SideMadeUp = string.Equals(kind, "stereo", StringComparison.Ordinal) && effect.Treated?.MakesSide is true ? true : null,
    });

    private void AddFile(string staging, string file, string kind) => _files.Add(ManifestFile.Of(staging, file, kind) with { Effect = effect.Name });

    private ReportEffect Card(Heard heard, Recipe recipe, RenderResult stereo, DeliveryMeter meter, string audition) => new()
    {
        Name = effect.Name,
        Description = metadata.Description("stereo"),
        Keywords = effect.Tags,
        Length = new(stereo.Frames),
        SampleRateHertz = request.SampleRateHertz ?? Source.SampleRateHertz,
        Word = _files[0].Word!,
        SideLevel = effect.SideLevel,
        Trim = new(recipe.Treatment.TrimDecibels),
        TrimReason = recipe.Treatment.TrimDecibels == 0 ? "" : TrimReason(recipe.Treatment.Trim),
        AuditionFile = audition,
        Files = [.. _files.Select(f => new ReportFile(f.Kind, f.Path, f.Sha256))],
        Portrait = heard.Portrait,
        Direction = heard.Direction,
        Loudness = new()
        {
            Integrated = meter.Loudness.Integrated,
            MaxMomentary = meter.Loudness.MaxMomentary,
            MaxShortTerm = meter.Loudness.MaxShortTerm,
            Range = meter.Loudness.Range,
            TruePeak = meter.TruePeak,
            SamplePeak = meter.SamplePeak,
        },
        Mono = new()
        {
            FoldChange = FoldChange(heard.Measures),
            Correlation = heard.Measures.Correlation.Whole,
            WorstCorrelation = heard.Measures.Correlation.Worst,
            WorstAtSeconds = heard.Measures.Correlation.WorstRange?.From.At(Source.SampleRateHertz).TotalSeconds,
        },
        Findings = TakeChecker.InOrder(WithChecked([.. Source.Findings, .. effect.Treated?.Findings ?? [], .. stereo.Findings, .. TakeChecker.Relevant(TakeDetectors.Find(heard.Recorded), take.Roles).Select(InTake)])),
        Source = new(take.Name, [.. Source.Parts.Select(p => Path.GetFileName(p.Path)).Distinct(StringComparer.Ordinal)], FrameRange.FromFrames(effect.From, effect.To), Source.SampleRateHertz, Recorded()),
    };

    // What the check of the whole take found, and a reading of the cut alone does not: it names other places, or knows the session and the rig.
    private IEnumerable<Finding> WithChecked(IReadOnlyList<Finding> found) =>
        [.. found, .. effect.Checked.Where(c => !found.Any(f => string.Equals(f.Kind, c.Kind, StringComparison.Ordinal) && f.Role == c.Role))];

    // The cut was measured from its own start; the report places findings in the take.
    private Finding InTake(Finding finding) => finding.Range is { } range
        ? finding with { Range = FrameRange.FromFrames(range.From.Value + effect.From, range.To.Value + effect.From) }
        : finding;

    private static string TrimReason(TrimRequest trim) => trim.Kind switch
    {
        TrimKind.SamplePeak => string.Create(CultureInfo.InvariantCulture, $"highest sample at {trim.Target:0.#} dBFS"),
        TrimKind.TruePeak => string.Create(CultureInfo.InvariantCulture, $"true peak at {trim.Target:0.#} dBTP"),
        TrimKind.Ceiling => string.Create(CultureInfo.InvariantCulture, $"true peak at most {trim.Target:0.#} dBTP"),
        TrimKind.Loudness => string.Create(CultureInfo.InvariantCulture, $"loudness {trim.Target:0.#} LUFS"),
        _ => "",
    };

    // The power that the mono fold (the mid) has less than the mean of left and right: 10·lg(M² / (M² + g²S²)).
    private Decibels FoldChange(TakeMeasures measures)
    {
        var side = measures.SideMinusMid + effect.SideLevel;
        return -Decibels.FromPowerRatio(1 + side.PowerRatio);
    }

    private string Recorded() => $"{Source.Broadcast?.OriginationDate} {Source.Broadcast?.OriginationTime}".Trim();

    // What one reading of the cut gives, as treated; and what the recording itself measures.
    private sealed record Heard(TakeMeasures Measures, TakePortrait Portrait, DirectionTrail? Direction, TakeMeasures Recorded);
}
