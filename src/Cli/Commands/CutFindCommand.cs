using System.CommandLine;
using System.Text.Json;
using Athwart.Cli.Output;
using Athwart.Jobs.Cut;

namespace Athwart.Cli.Commands;

/// <summary><c>cut find</c>: proposes cuts by rules, for approval.</summary>
internal static class CutFindCommand
{
    public static Command Create(Screen screen)
    {
        var library = CommonOptions.Library();
        var session = CommonOptions.Session();
        var take = CutOptions.OneTake();
        var rules = new Option<string?>("--rules") { Description = "A file of rules; see 'athwart cut rules'.", HelpName = "FILE" };
        var pictures = new Option<string?>("--pictures") { Description = "Draw each take with its proposed cuts into this folder.", HelpName = "DIR" };
        var overwrite = CommonOptions.Overwrite();
        var json = CommonOptions.Json("the proposals");
        var threads = CheckCommand.Threads();
        var command = new ExampledCommand(
            "find",
            "Find the sounds of a session and propose cuts. Nothing is cut until 'cut approve'.",
            "athwart cut find --library lib --session \"Lock, spring\"",
            "athwart cut find --library lib --session \"Lock, spring\" --take T05 --rules steps.json --pictures cuts")
        { library, session, take, rules, pictures, overwrite, json, threads };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            FindCutsReport report;
            using (var progress = new ProgressLine(screen))
            {
                report = FindCutsJob.Run(
                    new()
                    {
                        Library = parsed.GetValue(library)!,
                        Session = parsed.GetValue(session)!,
                        Take = parsed.GetValue(take),
                        Rules = parsed.GetValue(rules) is { } file ? CutRuleReader.Read(file) : CutRules.Usual,
                        Pictures = parsed.GetValue(pictures),
                        Overwrite = parsed.GetValue(overwrite),
                        Threads = parsed.GetValue(threads),
                    },
                    progress,
                    cancellation);
            }

            if (parsed.GetValue(json))
                screen.Line(JsonSerializer.Serialize(new() { Session = report.Session, Takes = report.Takes, Proposals = report.Proposals }, CutJson.Readable.FindCutsDocument));
            else
                CutTables.Found(screen, report, parsed.GetValue(library)!);
            return ExitCode.Done;
        })));
        return command;
    }
}
