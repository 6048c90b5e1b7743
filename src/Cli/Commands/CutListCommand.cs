using System.CommandLine;
using System.Text.Json;
using Athwart.Cli.Output;
using Athwart.Jobs.Cut;

namespace Athwart.Cli.Commands;

/// <summary><c>cut list</c>, <c>cut rules</c> and <c>cut alike</c>: what there is.</summary>
internal static class CutListCommand
{
    public static Command Create(Screen screen)
    {
        var library = CommonOptions.Library();
        var session = CommonOptions.Session();
        var take = CutOptions.OneTake();
        var json = CommonOptions.Json("the cuts and proposals");
        var command = new ExampledCommand(
            "list",
            "List the cuts of a session and the proposals that wait to be approved.",
            "athwart cut list --library lib --session \"Lock, spring\"",
            "athwart cut list --library lib --session \"Lock, spring\" --take T05 --json")
        { library, session, take, json };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            var list = ListCutsJob.Run(parsed.GetValue(library)!, parsed.GetValue(session)!, parsed.GetValue(take), cancellation);
            if (parsed.GetValue(json))
                screen.Line(JsonSerializer.Serialize(list, CutJson.Readable.CutListDocument));
            else
                CutTables.List(screen, list);
            return ExitCode.Done;
        })));
        return command;
    }

    /// <summary><c>cut rules</c>.</summary>
    public static Command Rules(Screen screen)
    {
        var command = new ExampledCommand("rules", "Print the usual rules as JSON, to start one's own from.", "athwart cut rules");
        command.SetAction(_ =>
        {
            screen.Line(JsonSerializer.Serialize(CutRules.Usual, CutJson.Readable.CutRules));
            return ExitCode.Done;
        });
        return command;
    }

    /// <summary><c>cut alike</c>.</summary>
    public static Command Alike(Screen screen)
    {
        var library = CommonOptions.Library();
        var session = CommonOptions.Session();
        var distance = new Option<double>("--distance")
        {
            Description = "How different two cuts may be to count as variations of one sound, in decibels.",
            HelpName = "DB",
            DefaultValueFactory = _ => AlikeJob.UsualDecibels,
        };
        var command = new ExampledCommand(
            "alike",
            "Say which cuts of a session are variations of one sound.",
            "athwart cut alike --library lib --session \"Lock, spring\"",
            "athwart cut alike --library lib --session \"Lock, spring\" --distance 9")
        { library, session, distance };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            CutTables.Alike(screen, AlikeJob.Run(parsed.GetValue(library)!, parsed.GetValue(session)!, parsed.GetValue(distance), cancellation));
            return ExitCode.Done;
        })));
        return command;
    }
}
