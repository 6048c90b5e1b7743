using System.CommandLine;
using System.Globalization;
using Athwart.Cli.Output;
using Athwart.Jobs;
using Athwart.Jobs.Decode;
using Athwart.Jobs.Shape;
using Athwart.Quantities;

namespace Athwart.Cli.Commands;

/// <summary><c>decode</c>: raw pairs to stereo files, without a library.</summary>
internal static class DecodeCommand
{
    public const string Summary = "Decode raw mid-side recordings to stereo: left = mid + g·side, right = mid − g·side. The mono fold stays the mid.";

    public static Command Create(Screen screen)
    {
        var paths = new Argument<string[]>("PATH") { Description = "IN and OUT; or, with --into, any number of recordings and folders.", Arity = ArgumentArity.OneOrMore };
        var into = new Option<string?>("--into") { Description = "A folder for the stereo files; made when it is not there.", HelpName = "DIR" };
        var sideLevel = CommonOptions.SideLevel("Gain of the side against the mid in decibels; 0 unless said, -inf for mono.");
        var treatment = new Option<string?>("--treatment") { Description = "What is done to mid and side first: a treatment that comes with the program, or a file.", HelpName = "NAME" };
        var mid = CommonOptions.Mid();
        var side = CommonOptions.Side();
        var invert = CommonOptions.InvertSide();
        var seed = new Option<ulong>("--seed") { Description = "The seed of the dither; 1 unless said.", HelpName = "N", DefaultValueFactory = _ => 1 };
        var recipe = new Option<bool>("--recipe") { Description = "Write a recipe beside each file, by which 'render' makes it again." };
        var overwrite = CommonOptions.Overwrite();
        var threads = CheckCommand.Threads();
        var command = new ExampledCommand(
            "decode",
            Summary,
            "athwart decode gate.wav gate-stereo.wav --side-level -3",
            "athwart decode gate.wav gate-48k.wav --side-level 0 --rate 48000 --word s16 --true-peak -1",
            "athwart decode card --into stereo --side-level -3")
        { paths, into, sideLevel, treatment, mid, side, invert, seed, recipe, overwrite, threads };
        var output = new OutputOptions(command);
        command.Validators.Add(result =>
        {
            if (result.GetValue(into) is null && result.GetValue(paths) is { Length: not 2 })
                result.AddError("Name one recording and the stereo file to write, or give --into DIR for several.");
        });
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            var named = parsed.GetValue(paths)!;
            var folder = parsed.GetValue(into);
            if (folder is not null)
                Directory.CreateDirectory(folder);
            return Run(screen, new()
            {
                Inputs = RecordingPaths.Find(folder is null ? [named[0]] : named),
                Output = folder ?? named[1],
                SideLevel = parsed.GetValue(sideLevel),
                Treatment = parsed.GetValue(treatment) is { } wanted ? TreatmentShelf.Find(null, wanted) : null,
                Word = output.WordOf(parsed),
                SampleRateHertz = output.RateOf(parsed),
                Trim = output.TrimOf(parsed),
                MidChannel = parsed.GetValue(mid),
                SideChannel = parsed.GetValue(side),
                InvertSide = parsed.GetValue(invert) ?? false,
                Seed = parsed.GetValue(seed),
                WriteRecipe = parsed.GetValue(recipe),
                Overwrite = parsed.GetValue(overwrite),
                Threads = parsed.GetValue(threads),
            }, cancellation);
        })));
        return command;
    }

    private static int Run(Screen screen, DecodeRequest request, CancellationToken cancellation)
    {
        DecodeReport report;
        using (var progress = new ProgressLine(screen))
            report = DecodeJob.Run(request with { Progress = new RenderProgressLine(progress, "Decoding") }, cancellation);
        var worst = ExitCode.Done;
        foreach (var take in report.Takes)
        {
            foreach (var finding in take.Findings)
                screen.Line($"{take.Name}: {finding.Message}");
            if (take.Error is { } error)
                worst = Math.Max(worst, Failures.Run(screen, () => throw Refusal(take, error)));
            else
                Write(screen, take);
        }

        return worst;
    }

    // Unless it may be replaced, a file that is there already is what stopped the writing.
    private static Exception Refusal(DecodedTake take, Exception error) =>
        error is IOException && take.Recipe?.Output.File is { Length: > 0 } target && File.Exists(target)
            ? new JobException(JobErrorKind.Refused, error.Message + ".", "Or give --overwrite.", error)
            : error;

    private static void Write(Screen screen, DecodedTake take)
    {
        var sideLevel = take.Recipe!.Treatment.SideLevelDecibels is { } level ? new Decibels(level) : Decibels.Silence;
        foreach (var remark in take.Treated?.Remarks ?? [])
            screen.Line($"{take.Name}: {remark}.");
        var trim = take.Recipe!.Treatment.TrimDecibels;
        var trimmed = trim == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $", trim {trim:+0.00;−0.00} dB");
        screen.Line(string.Create(
            CultureInfo.InvariantCulture,
            $"{take.Result!.Path}: side level {sideLevel}{trimmed}, peak {DecibelsFullScale.FromAmplitude(take.Result.SamplePeak)}. {take.RolesFrom}"));
    }
}
