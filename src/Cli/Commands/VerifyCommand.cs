using System.CommandLine;
using System.Globalization;
using Athwart.Cli.Output;
using Athwart.Jobs.Verify;

namespace Athwart.Cli.Commands;

/// <summary><c>verify</c>: finds every changed, missing or added file of a delivery.</summary>
internal static class VerifyCommand
{
    public const string Summary = "Read every file of a delivery again and find what was changed, is missing or was added.";

    public static Command Create(Screen screen)
    {
        var folder = new Argument<string>("FOLDER") { Description = "A folder that 'deliver' wrote." };
        var command = new ExampledCommand(
            "verify",
            Summary,
            "athwart verify lock-effects")
        { folder };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () => Run(screen, parsed.GetValue(folder)!, cancellation))));
        return command;
    }

    private static int Run(Screen screen, string folder, CancellationToken cancellation)
    {
        VerifyReport report;
        using (var progress = new ProgressLine(screen))
            report = VerifyJob.Run(new(folder), progress, cancellation);
        foreach (var difference in report.Differences)
            screen.Line($"{difference.Verdict.ToString().ToLowerInvariant(),-10} {difference.Path}: {difference.Detail}");
        screen.Line(report.IsSound
            ? string.Create(CultureInfo.InvariantCulture, $"All {report.FilesSound} files are as they were delivered.")
            : string.Create(CultureInfo.InvariantCulture, $"{report.FilesSound} files are as delivered, {report.Differences.Count} differ."));
        return report.IsSound ? ExitCode.Done : ExitCode.FaultFound;
    }
}
