using System.CommandLine;
using System.Globalization;
using Athwart.Jobs.Salvage;

namespace Athwart.Cli.Commands;

/// <summary><c>salvage</c>: a sound copy of a damaged recording, beside it.</summary>
internal static class SalvageCommand
{
    public const string Summary = "Write a sound copy of a damaged recording beside it, with every whole frame and every chunk that is intact.";

    public static Command Create(Screen screen)
    {
        var file = new Argument<string>("FILE") { Description = "The damaged recording; it is only read." };
        var to = new Option<string?>("--to") { Description = "The sound copy; beside the damaged file unless said.", HelpName = "FILE" };
        var command = new ExampledCommand(
            "salvage",
            Summary,
            "athwart salvage card/T07.wav",
            "athwart salvage card/T07.wav --to saved/bridge-deck.wav")
        { file, to };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            var report = SalvageJob.Run(new(parsed.GetValue(file)!, parsed.GetValue(to)), cancellation);
            foreach (var finding in report.Findings)
                screen.Line("  " + finding.Message);
            screen.Line(string.Create(CultureInfo.InvariantCulture, $"{report.FrameCount} whole frames saved to '{report.TargetPath}'. The damaged file is as it was."));
            return ExitCode.Done;
        })));
        return command;
    }
}
