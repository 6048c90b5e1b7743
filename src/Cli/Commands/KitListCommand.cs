using System.CommandLine;
using Athwart.Cli.Output;
using Athwart.Jobs.Kits;

namespace Athwart.Cli.Commands;

/// <summary><c>kit list</c>: what is in the kit, what is not known of it, and what that costs.</summary>
internal static class KitListCommand
{
    public static Command Create(Screen screen)
    {
        var library = CommonOptions.Library();
        var json = CommonOptions.Json("the kit and what is not known of it");
        var command = new ExampledCommand(
            "list",
            "List the kit, say what is not known of it and what that will cost.",
            "athwart kit list --library lib",
            "athwart kit list --library lib --json")
        { library, json };
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        {
            var report = KitListJob.Run(parsed.GetValue(library)!);
            if (parsed.GetValue(json))
                screen.Line(KitReportJson.Write(report));
            else
                KitTables.Write(screen, report);
            return ExitCode.Done;
        })));
        return command;
    }
}
