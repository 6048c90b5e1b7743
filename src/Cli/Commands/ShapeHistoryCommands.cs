using System.CommandLine;
using Athwart.Catalogue;
using Athwart.Cli.Output;
using Athwart.Jobs.Shape;

namespace Athwart.Cli.Commands;

/// <summary><c>shape undo</c>, <c>redo</c> and <c>history</c>.</summary>
internal static class ShapeHistoryCommands
{
    public static Command Undo(Screen screen) => Turn(screen, "undo", "Undo the latest change of treatments.", TreatmentsJob.Undo, "undone", "There is nothing to undo.");

    public static Command Redo(Screen screen) => Turn(screen, "redo", "Do again what was undone last.", TreatmentsJob.Redo, "done again", "There is nothing to do again.");

    public static Command History(Screen screen)
    {
        var library = CommonOptions.Library();
        var command = new ExampledCommand("history", "The changes of treatments, the latest first.", "athwart shape history --library lib") { library };
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        {
            ShapeWords.History(screen, TreatmentsJob.History(parsed.GetValue(library)!));
            return ExitCode.Done;
        })));
        return command;
    }

    private static ExampledCommand Turn(Screen screen, string name, string description, Func<string, TreatmentHistoryEntry?> turn, string done, string nothing)
    {
        var library = CommonOptions.Library();
        var command = new ExampledCommand(name, description, $"athwart shape {name} --library lib") { library };
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        {
            var entry = turn(parsed.GetValue(library)!);
            screen.Line(entry is null ? nothing : $"{done}: {entry.What}");
            return ExitCode.Done;
        })));
        return command;
    }
}
