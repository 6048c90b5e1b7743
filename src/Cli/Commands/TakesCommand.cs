using System.CommandLine;
using Athwart.Cli.Output;
using Athwart.Jobs.Sessions;

namespace Athwart.Cli.Commands;

/// <summary><c>takes</c>: what a library holds.</summary>
internal static class TakesCommand
{
    public const string Summary = "List the sessions of a library, or the takes and cuts of one session.";

    public static Command Create(Screen screen)
    {
        var library = CommonOptions.Library();
        var session = CommonOptions.Session(required: false);
        var command = new ExampledCommand(
            "takes",
            Summary,
            "athwart takes --library lib",
            "athwart takes --library lib --session \"Lock, spring\"")
        { library, session };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            if (parsed.GetValue(session) is { } name)
                TakeTables.Session(screen, ListJob.Session(parsed.GetValue(library)!, name, cancellation));
            else
                TakeTables.Sessions(screen, ListJob.Sessions(parsed.GetValue(library)!));
            return ExitCode.Done;
        })));
        return command;
    }
}
