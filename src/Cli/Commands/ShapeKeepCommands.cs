using System.CommandLine;
using Athwart.Cli.Output;
using Athwart.Jobs.Shape;

namespace Athwart.Cli.Commands;

/// <summary><c>shape list</c>, <c>show</c>, <c>keep</c> and <c>remove</c>: treatments by name.</summary>
internal static class ShapeKeepCommands
{
    public static Command List(Screen screen)
    {
        var library = CommonOptions.Library(required: false);
        var command = new ExampledCommand("list", "The treatments that come with the program and those kept in a library.", "athwart shape list --library lib") { library };
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        {
            ShapeWords.List(screen, TreatmentsJob.List(parsed.GetValue(library)));
            return ExitCode.Done;
        })));
        return command;
    }

    public static Command Show(Screen screen)
    {
        var name = Name();
        var library = CommonOptions.Library(required: false);
        var json = CommonOptions.Json("the treatment");
        var to = new Option<string?>("--to") { Description = "Write it to a file, to be changed and kept.", HelpName = "FILE" };
        var overwrite = CommonOptions.Overwrite();
        var command = new ExampledCommand("show", "Say in words what a treatment does.", "athwart shape show \"Hard effect\"", "athwart shape show \"Hard effect\" --to mine.json") { name, library, json, to, overwrite };
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        {
            var treatment = TreatmentsJob.Show(parsed.GetValue(library), parsed.GetValue(name)!);
            if (parsed.GetValue(to) is { } file)
                ShapeWords.Write(screen, treatment, file, parsed.GetValue(overwrite));
            else if (parsed.GetValue(json))
                screen.Output.Write(TreatmentFiles.ToJson(treatment));
            else
                ShapeWords.Show(screen, treatment);
            return ExitCode.Done;
        })));
        return command;
    }

    public static Command Keep(Screen screen)
    {
        var name = Name();
        var library = CommonOptions.Library();
        var under = new Option<string?>("--name") { Description = "The name it is kept under; its own unless said.", HelpName = "NAME" };
        var command = new ExampledCommand("keep", "Keep a treatment in the library; one of the same name is replaced, and 'shape undo' brings it back.", "athwart shape keep mine.json --library lib") { name, library, under };
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        {
            var treatment = TreatmentsJob.Show(parsed.GetValue(library), parsed.GetValue(name)!);
            treatment = new TreatmentsJob().Keep(parsed.GetValue(library)!, treatment with { Name = parsed.GetValue(under) ?? treatment.Name });
            screen.Line($"kept '{treatment.Name}', {treatment.Steps.Count} step(s)");
            return ExitCode.Done;
        })));
        return command;
    }

    public static Command Remove(Screen screen)
    {
        var name = Name();
        var library = CommonOptions.Library();
        var command = new ExampledCommand("remove", "Take a kept treatment out of the library; takes and effects keep what was applied to them.", "athwart shape remove \"mine\" --library lib") { name, library };
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        {
            new TreatmentsJob().Remove(parsed.GetValue(library)!, parsed.GetValue(name)!);
            screen.Line($"removed '{parsed.GetValue(name)}'");
            return ExitCode.Done;
        })));
        return command;
    }

    private static Argument<string> Name() => new("TREATMENT") { Description = "The treatment, by name or as a file that ends in .json." };
}
