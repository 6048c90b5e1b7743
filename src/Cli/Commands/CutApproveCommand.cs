using System.CommandLine;
using Athwart.Cli.Output;
using Athwart.Jobs.Cut;

namespace Athwart.Cli.Commands;

/// <summary><c>cut approve</c>: turns proposals into cuts, or refuses them.</summary>
internal static class CutApproveCommand
{
    public static Command Create(Screen screen)
    {
        var library = CommonOptions.Library();
        var session = CommonOptions.Session();
        var numbers = new Option<int[]>("--number") { Description = "A proposal's number in the table; may be given again.", HelpName = "N", AllowMultipleArgumentsPerToken = true };
        var all = new Option<bool>("--all") { Description = "All of them." };
        var refuse = new Option<bool>("--refuse") { Description = "Take them off the table instead of cutting them." };
        var name = new Option<string?>("--name") { Description = "Another name for the one that is approved.", HelpName = "NAME" };
        var command = new ExampledCommand(
            "approve",
            "Turn proposed cuts into cuts of the library, or refuse them.",
            "athwart cut approve --library lib --session \"Lock, spring\" --all",
            "athwart cut approve --library lib --session \"Lock, spring\" --number 3 --name \"gate boom\"",
            "athwart cut approve --library lib --session \"Lock, spring\" --number 4 5 --refuse")
        { library, session, numbers, all, refuse, name };
        command.Validators.Add(result =>
        {
            if (result.GetValue(all) == (result.GetValue(numbers) is { Length: > 0 }))
                result.AddError("Say which: --number N, or --all.");
        });
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            var report = ApproveCutsJob.Run(
                new()
                {
                    Library = parsed.GetValue(library)!,
                    Session = parsed.GetValue(session)!,
                    Numbers = parsed.GetValue(all) ? [] : parsed.GetValue(numbers)!,
                    Refuse = parsed.GetValue(refuse),
                    Name = parsed.GetValue(name),
                },
                cancellation);
            CutTables.Approved(screen, report, parsed.GetValue(refuse));
            return ExitCode.Done;
        })));
        return command;
    }
}
