using System.CommandLine;
using Athwart.Jobs.Kits;

namespace Athwart.Cli.Commands;

/// <summary><c>kit remove</c>: takes things out of the kit.</summary>
internal static class KitRemoveCommand
{
    public static Command Create(Screen screen)
    {
        var names = new Argument<string[]>("NAME") { Description = "The name as 'kit list' shows it; 'recorder:NAME' where two kinds share it.", Arity = ArgumentArity.OneOrMore };
        var library = CommonOptions.Library();
        var command = new ExampledCommand(
            "remove",
            "Take microphones, recorders or wind protections out of the kit.",
            "athwart kit remove \"small omni\" \"recorder:pocket recorder\" --library lib")
        { names, library };
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        {
            foreach (var name in KitRemoveJob.Run(parsed.GetValue(library)!, parsed.GetValue(names)!))
                screen.Line("removed " + name);
            return ExitCode.Done;
        })));
        return command;
    }
}
