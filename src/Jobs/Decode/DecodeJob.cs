using System.Globalization;
using Athwart.Jobs.Render;
using Athwart.Jobs.Roles;
using Athwart.Jobs.Shape;
using Athwart.Quantities;
using Athwart.Recordings;
using Athwart.Signals.FixedMath;

namespace Athwart.Jobs.Decode;

/// <summary>Decodes raw mid-side recordings to stereo files, one or many.</summary>
public static class DecodeJob
{
    /// <summary>Runs it. A take that cannot be decoded is reported and the others go on.</summary>
    /// <exception cref="RenderException">Several takes were given and the output is no folder.</exception>
    /// <exception cref="OperationCanceledException">It was cancelled; files that were complete stay.</exception>
    public static DecodeReport Run(DecodeRequest request, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        var assembly = TakeAssembler.Assemble(request.Inputs, cancellation);
        var targets = Targets(request, assembly.Takes);
        var done = new DecodedTake[assembly.Takes.Count];
        // Cores are used across takes first, within a take second.
        var across = Math.Clamp(Math.Min(request.Threads, done.Length), 1, int.MaxValue);
        var progress = new ProgressSum(request.Progress, done.Length);
        var options = new RenderOptions { Threads = Math.Max(1, request.Threads / across), Overwrite = request.Overwrite, Durable = request.Durable, Hash = request.WriteRecipe };
        void One(int n) => done[n] = Decode(request, assembly.Takes[n], targets[n], options with { Progress = progress.Part(n) }, cancellation);
        if (done.Length == 1)
            One(0);
        else
            Parallel.For(0, done.Length, new ParallelOptions { MaxDegreeOfParallelism = across, CancellationToken = cancellation }, One);
        return new([.. done, .. assembly.Refused.Select(r => new DecodedTake { Name = r.Path, Inputs = [r.Path], Error = r.Error })]);
    }

    /// <summary>The recipe of a take before its trim is resolved and its metadata are set.</summary>
    internal static Recipe Plan(DecodeRequest request, TakeDescription take, RoleAssignment roles, SettledTreatment? treated)
    {
        // A take without a side is decoded with none, unless a step makes one: both channels are the mid.
        var sideLevel = roles.SideChannel is null && treated?.MakesSide is not true ? Decibels.Silence : request.SideLevel ?? treated?.SideLevel ?? Decibels.Unity;
        return new()
        {
            Program = ProgramName.WithVersion,
            Source = RecipeSources.From(take, roles.MidChannel + 1, (roles.SideChannel ?? roles.MidChannel) + 1) with
            {
                InvertSide = roles.SideInverted,
                FromFrame = request.FromFrame,
                ToFrame = request.ToFrame ?? take.FrameCount,
                Rig = treated?.Rig,
            },
            Treatment = new()
            {
                Name = treated?.Name,
                Steps = treated is { Steps.Count: > 0 } ? treated.Steps : null,
                SideLevelDecibels = double.IsNegativeInfinity(sideLevel.Value) ? null : sideLevel.Value,
                SideGain = FixedGain.AmplitudeRatio(sideLevel.Value),
                Trim = request.Trim,
                FadeInFrames = request.FadeInFrames,
                FadeOutFrames = request.FadeOutFrames,
            },
            Output = new()
            {
                Kind = request.Kind,
                SampleRateHertz = request.SampleRateHertz ?? take.SampleRateHertz,
                Word = request.Word ?? OutputWords.For(take.Format),
                Seed = request.Seed,
            },
        };
    }

    private static RoleAssignment Roles(DecodeRequest request, TakeDescription take) =>
        RoleReader.Decide(take.Tracks, take.ChannelCount, new(request.MidChannel, request.SideChannel, request.InvertSide), RoleSettings.None);

    private static SettledTreatment? Settle(DecodeRequest request, TakeDescription take, Take source, RoleAssignment roles, CancellationToken cancellation) => request.Treatment is null
        ? null
        : TreatmentSettler.Settle(request.Treatment, request.Rig, steps => PairPowers.Measure(source, roles, steps, request.FromFrame, request.ToFrame ?? take.FrameCount, cancellation));

    private static DecodedTake Decode(DecodeRequest request, TakeDescription take, string target, RenderOptions options, CancellationToken cancellation)
    {
        var roles = Roles(request, take);
        var decoded = new DecodedTake { Name = take.Name, Inputs = [.. take.Parts.Select(p => p.Path)], Findings = take.Findings, RolesFrom = roles.Explanation };
        try
        {
            using var source = take.Open();
            var treated = Settle(request, take, source, roles, cancellation);
            var recipe = Plan(request, take, roles, treated);
            decoded = decoded with { Treated = treated, Recipe = recipe with { Output = recipe.Output with { File = target } } };
            recipe = Trims.Resolve(source, recipe, rate => new ProgrammeMeter(rate), options.Threads, cancellation);
            recipe = recipe with { Output = recipe.Output with { File = target, Metadata = StereoMetadata.For(take, recipe) } };
            var result = RenderEngine.Render(source, recipe, target, options, cancellation);
            return decoded with
            {
                Result = result,
                Recipe = recipe,
                RecipePath = request.WriteRecipe ? Keep(recipe, result) : null,
                Findings = [.. take.Findings, .. treated?.Findings ?? [], .. result.Findings],
            };
        }
        catch (Exception e) when (e is RenderException or RecordingException or JobException or IOException or UnauthorizedAccessException)
        {
            return decoded with { Error = e };
        }
    }

    private static string Keep(Recipe recipe, RenderResult result)
    {
        var path = Path.ChangeExtension(result.Path, ".recipe.json");
        var finished = recipe with { Output = recipe.Output with { Sha256 = result.Sha256, Bytes = result.Bytes } };
        RecipeFiles.Write(path, RecipeSources.ForFolder(finished, Path.GetDirectoryName(Path.GetFullPath(path))!));
        return path;
    }

    private static string[] Targets(DecodeRequest request, IReadOnlyList<TakeDescription> takes)
    {
        if (!Directory.Exists(request.Output))
        {
            return takes.Count <= 1
                ? [.. takes.Select(_ => request.Output)]
                : throw new RenderException(RenderErrorKind.Request, $"{request.Output}: {takes.Count} takes need a folder to be decoded into, and this is none. Make the folder first, or give one take.");
        }

        var used = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        return [.. takes.Select(t => Path.Combine(request.Output, Free(t.Name, used) + ".wav"))];
    }

    // Takes of one name from different folders keep apart by a number.
    private static string Free(string name, HashSet<string> used)
    {
        var free = name;
        for (var n = 2; !used.Add(free); n++)
            free = string.Create(CultureInfo.InvariantCulture, $"{name} {n}");
        return free;
    }
}
