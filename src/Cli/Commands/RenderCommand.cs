using System.CommandLine;
using System.Globalization;
using Athwart.Cli.Output;
using Athwart.Jobs.Render;

namespace Athwart.Cli.Commands;

/// <summary><c>render</c>: makes a delivered file again from its recipe, or gets the raw pair back.</summary>
internal static class RenderCommand
{
    public const string Summary = "Make a delivered file again from its recipe: the same bytes on any machine, with any number of processors.";

    public static Command Create(Screen screen)
    {
        var recipe = new Argument<string>("RECIPE") { Description = "The .recipe.json beside a delivered file." };
        var to = new Option<string?>("--to") { Description = "The file to write; the recipe's own name beside it unless said.", HelpName = "FILE" };
        var midside = new Option<bool>("--midside") { Description = "Get the raw mid/side pair back from the delivered stereo file." };
        var stereo = new Option<string?>("--stereo") { Description = "With --midside: the delivered stereo file; the one the recipe names unless said.", HelpName = "FILE" };
        var overwrite = CommonOptions.Overwrite();
        var threads = CheckCommand.Threads();
        var command = new ExampledCommand(
            "render",
            Summary,
            "athwart render lock-effects/gate_stereo.recipe.json --to again.wav",
            "athwart render lock-effects/gate_stereo.recipe.json --midside --to pair.wav")
        { recipe, to, midside, stereo, overwrite, threads };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            RenderReport report;
            using (var progress = new ProgressLine(screen))
            {
                report = RenderJob.Run(new()
                {
                    RecipePath = parsed.GetValue(recipe)!,
                    OutputPath = parsed.GetValue(to),
                    MidSide = parsed.GetValue(midside),
                    DeliveredPath = parsed.GetValue(stereo),
                    Options = new() { Threads = parsed.GetValue(threads), Overwrite = parsed.GetValue(overwrite), Progress = new RenderProgressLine(progress, "Rendering") },
                }, cancellation);
            }

            return Write(screen, report);
        })));
        return command;
    }

    private static int Write(Screen screen, RenderReport report)
    {
        screen.Line(string.Create(CultureInfo.InvariantCulture, $"{report.Result.Path}: {report.Result.Frames} frames{(report.Result.Sha256.Length > 0 ? ", SHA-256 " + report.Result.Sha256 : "")}"));
        if (report.Recovery is { } recovery)
            screen.Line(string.Create(
                CultureInfo.InvariantCulture,
                $"The raw pair: the mid of {recovery.ExactFrames} frames to the bit, the side within {recovery.SideErrorSteps:0.##} step(s); {recovery.ChangedFrames} frames were changed after delivery."));
        if (report.IsSame == true)
            screen.Line("The same bytes as delivered.");
        if (report.IsSame == false)
            screen.Line($"NOT the same bytes as delivered: the recipe expects SHA-256 {report.Expected}.");
        return report.IsSame == false ? ExitCode.FaultFound : ExitCode.Done;
    }
}
