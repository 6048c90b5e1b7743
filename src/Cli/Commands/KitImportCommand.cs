using System.CommandLine;
using Athwart.Jobs.Kits;

namespace Athwart.Cli.Commands;

/// <summary><c>kit import</c>: takes CSV and JSON files into the kit, all or nothing.</summary>
internal static class KitImportCommand
{
    public static Command Create(Screen screen)
    {
        var paths = new Argument<string[]>("FILE") { Description = "CSV or JSON files of a kit, or folders of them; see docs/kit.md for the columns.", Arity = ArgumentArity.ZeroOrMore };
        var demo = new Option<bool>("--demo") { Description = "Take the invented kit: 16 microphones, 3 recorders, 3 wind protections." };
        var library = CommonOptions.Library();
        var replace = Replace();
        var json = CommonOptions.Json("what was imported and every fault");
        var command = new ExampledCommand(
            "import",
            "Take files into the kit: all of them, or nothing and a list of every fault. The library is made when there is none.",
            "athwart kit import microphones.csv recorders.csv --library lib",
            "athwart kit import kit.json --library lib --replace",
            "athwart kit import --demo --library lib")
        { paths, demo, library, replace, json };
        command.Validators.Add(result =>
        {
            if (result.GetValue(paths) is not { Length: > 0 } && !result.GetValue(demo))
                result.AddError("Name files to import, or --demo.");
        });
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () => KitCommand.Finish(
            screen,
            KitImportJob.Run(new()
            {
                Library = parsed.GetValue(library)!,
                Paths = parsed.GetValue(paths) ?? [],
                Demo = parsed.GetValue(demo),
                Replace = parsed.GetValue(replace),
            }),
            parsed.GetValue(json)))));
        return command;
    }

    public static Option<bool> Replace() => new("--replace") { Description = "Replace what is there already under the same name; refused otherwise." };
}
