using System.CommandLine;

namespace Athwart.Cli.Commands;

/// <summary><c>shape</c>: treats mid and side apart before they are decoded.</summary>
internal static class ShapeCommand
{
    public const string Summary = "Treat mid and side apart: keep treatments, apply them to takes and effects, propose steps from findings, try and measure.";

    public static Command Create(Screen screen) => new ExampledCommand(
        "shape",
        Summary,
        "athwart shape list",
        "athwart shape try gate.wav --treatment \"Hard effect\" --out gate-try.wav",
        "athwart shape apply \"Ambience bed\" --library lib --session \"Lock, spring\" --take T05")
    {
        ShapeKeepCommands.List(screen),
        ShapeKeepCommands.Show(screen),
        ShapeKeepCommands.Keep(screen),
        ShapeKeepCommands.Remove(screen),
        ShapeApplyCommands.Apply(screen),
        ShapeApplyCommands.Propose(screen),
        ShapeHearCommands.Measure(screen),
        ShapeHearCommands.Try(screen),
        ShapeHearCommands.Sounds(screen),
        ShapeHistoryCommands.Undo(screen),
        ShapeHistoryCommands.Redo(screen),
        ShapeHistoryCommands.History(screen),
    };
}
