using System.CommandLine;
using Athwart.Cli.Output;
using Athwart.Jobs.Sessions;

namespace Athwart.Cli.Commands;

/// <summary><c>roles</c>: says which channel is mid and which is side, and the side's polarity.</summary>
internal static class RolesCommand
{
    public const string Summary = "Set which channel is mid and which is side, and whether the side is inverted, for a session or one take.";

    public static Command Create(Screen screen)
    {
        var library = CommonOptions.Library();
        var session = CommonOptions.Session();
        var take = new Option<string?>("--take") { Description = "One take only; all takes of the session unless said.", HelpName = "NAME" };
        var mid = CommonOptions.Mid();
        var side = CommonOptions.Side();
        var invert = CommonOptions.InvertSide();
        var clear = new Option<bool>("--clear") { Description = "Forget what was set before." };
        var command = new ExampledCommand(
            "roles",
            Summary,
            "athwart roles --library lib --session \"Lock, spring\" --mid 2 --side 1",
            "athwart roles --library lib --session \"Lock, spring\" --take T03 --invert-side")
        { library, session, take, mid, side, invert, clear };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            var request = new RolesRequest(
                parsed.GetValue(library)!,
                parsed.GetValue(session)!,
                parsed.GetValue(take),
                CommonOptions.Roles(parsed, mid, side, invert),
                parsed.GetValue(clear));
            TakeTables.Roles(screen, RolesJob.Run(request, cancellation));
            return ExitCode.Done;
        })));
        return command;
    }
}
