using System.CommandLine;
using System.Globalization;
using Athwart.Cli.Output;
using Athwart.Jobs.Demo;

namespace Athwart.Cli.Commands;

/// <summary><c>demo</c>: the main job on an invented card.</summary>
internal static class DemoCommand
{
    public const string Summary = "Set up and run the main job on an invented card of a canal lock and its lift bridge: take in, check, cut, deliver, verify.";

    private const string DefaultFolder = "athwart-demo";

    public static Command Create(Screen screen)
    {
        var folder = new Option<string?>("--folder") { Description = $"A new folder for card, library and delivery; '{DefaultFolder}', or the next free number of it, unless said.", HelpName = "DIR" };
        var command = new ExampledCommand(
            "demo",
            Summary,
            "athwart demo",
            "athwart demo --folder /tmp/lock")
        { folder };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () => Run(screen, parsed.GetValue(folder) ?? Free(), cancellation))));
        return command;
    }

    private static string Free()
    {
        var name = DefaultFolder;
        for (var n = 2; Directory.Exists(name); n++)
            name = string.Create(CultureInfo.InvariantCulture, $"{DefaultFolder}-{n}");
        return name;
    }

    private static int Run(Screen screen, string folder, CancellationToken cancellation)
    {
        DemoReport report;
        using (var progress = new ProgressLine(screen))
            report = DemoJob.Run(new(folder), progress, cancellation);
        screen.Line(string.Create(CultureInfo.InvariantCulture, $"1. A card of {report.Card.Files.Count} files was generated in '{report.Card.Folder}'."));
        TakeInCommand.Write(screen, report.TakeIn, showNext: false);
        screen.Line();
        screen.Line("2. The check:");
        CheckTables.Write(screen, report.Check);
        screen.Line();
        screen.Line(string.Create(CultureInfo.InvariantCulture, $"3. {report.Cuts.Sum(c => c.Effects.Count)} effects were cut in {report.Cuts.Count} takes, decoded and delivered; all {report.Verify.FilesSound} files verified."));
        screen.Line($"   Delivered:  {report.Delivery.Folder}");
        screen.Line($"   Report:     {report.Delivery.ReportPath}");
        screen.Line($"   Try next:   athwart takes --library \"{report.LibraryFolder}\" --session \"{report.Session}\"");
        screen.Line($"   An invented kit is in the library too: athwart kit list --library \"{report.LibraryFolder}\"");
        return report.Verify.IsSound && report.TakeIn.Complete ? ExitCode.Done : ExitCode.FaultFound;
    }
}
