using System.CommandLine;
using Athwart.Jobs.Kits;

namespace Athwart.Cli.Commands;

/// <summary><c>kit export</c>: writes the kit as JSON or as three CSV files.</summary>
internal static class KitExportCommand
{
    public static Command Create(Screen screen)
    {
        var target = new Argument<string?>("TARGET") { Description = "A file that ends in .json, or a folder for microphones.csv, recorders.csv and protections.csv.", Arity = ArgumentArity.ZeroOrOne };
        var library = CommonOptions.Library();
        var overwrite = CommonOptions.Overwrite();
        var json = CommonOptions.Json("the kit");
        var command = new ExampledCommand(
            "export",
            "Write the kit as one JSON file or as three CSV files; importing them gives the same kit.",
            "athwart kit export my-kit --library lib",
            "athwart kit export kit.json --library lib",
            "athwart kit export --json --library lib")
        { target, library, overwrite, json };
        command.Validators.Add(result =>
        {
            if (result.GetValue(target) is null && !result.GetValue(json))
                result.AddError("Name a .json file or a folder to write, or --json for standard output.");
        });
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        {
            var folder = parsed.GetValue(library)!;
            var report = parsed.GetValue(target) is { } path ? KitExportJob.Run(new(folder, path, parsed.GetValue(overwrite))) : new([], KitStore.Load(folder));
            if (parsed.GetValue(json))
                screen.Line(KitJson.Write(report.Kit));
            else
                foreach (var file in report.Files)
                    screen.Line("wrote " + file);
            return ExitCode.Done;
        })));
        return command;
    }
}
