using System.CommandLine;
using System.Globalization;
using Athwart.Cli.Output;
using Athwart.Jobs.Deliver;
using Athwart.Jobs.Deliver.Naming;

namespace Athwart.Cli.Commands;

/// <summary><c>deliver</c>: renders the effects of a session.</summary>
internal static class DeliverCommand
{
    public const string Summary = "Render the effects of a session: stereo and raw pair of each, with metadata, recipes, manifest and a report to open. A take without a cut is delivered whole.";

    public static Command Create(Screen screen)
    {
        var library = CommonOptions.Library();
        var session = CommonOptions.Session();
        var to = new Option<string>("--to") { Description = "The delivery's folder; new or empty.", HelpName = "DIR", Required = true };
        var takes = Many("--take", "A take to deliver; all unless said. May be given again.", "NAME");
        var effects = Many("--effect", "An effect to deliver; all unless said. May be given again.", "NAME");
        var title = Text("--title", "The title of the delivery; the session's name unless said.");
        var template = new Option<string>("--template")
        {
            Description = "The file name template. Tokens: " + string.Join(' ', NameTemplate.Tokens.Select(t => "{" + t + "}")) + ".",
            HelpName = "TEXT",
            DefaultValueFactory = _ => NameTemplate.Default,
        };
        var sideLevel = CommonOptions.SideLevel("Side level in decibels where the cut itself says none; the session's, or 0, unless said.");
        var treatment = new Option<string?>("--treatment") { Description = "The treatment of effects that have none of their own: one that is kept, one that comes with the program, or a file.", HelpName = "NAME" };
        var mono = new Option<bool>("--mono") { Description = "Deliver a mono file beside each stereo." };
        var recordist = Text("--recordist", "Who recorded it: the originator of the files.");
        var project = Text("--project", "The project; the one the takes name unless said.");
        var category = Text("--category", "A category word for the names.");
        var threads = CheckCommand.Threads();
        var command = new ExampledCommand(
            "deliver",
            Summary,
            "athwart deliver --library lib --session \"Lock, spring\" --to lock-effects --side-level -3 --mono",
            "athwart deliver --library lib --session \"Lock, spring\" --to lock-48k --rate 48000 --word s24 --true-peak -1 --template \"{index:000}_{effect}_{kind}\"")
        { library, session, to, takes, effects, title, template, sideLevel, treatment, mono, recordist, project, category, threads };
        var output = new OutputOptions(command);
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () => Run(screen, new()
        {
            Library = parsed.GetValue(library)!,
            Session = parsed.GetValue(session)!,
            Folder = parsed.GetValue(to)!,
            Takes = parsed.GetValue(takes) ?? [],
            Effects = parsed.GetValue(effects) ?? [],
            Title = parsed.GetValue(title),
            Template = parsed.GetValue(template)!,
            SideLevel = parsed.GetValue(sideLevel),
            Treatment = parsed.GetValue(treatment),
            Word = output.WordOf(parsed),
            SampleRateHertz = output.RateOf(parsed),
            Trim = output.TrimOf(parsed),
            Mono = parsed.GetValue(mono),
            Recordist = parsed.GetValue(recordist) ?? "",
            Project = parsed.GetValue(project),
            Category = parsed.GetValue(category) ?? "",
            Threads = parsed.GetValue(threads),
        }, cancellation))));
        return command;
    }

    private static Option<string[]> Many(string name, string description, string help) => new(name) { Description = description, HelpName = help };

    private static Option<string?> Text(string name, string description) => new(name) { Description = description, HelpName = "TEXT" };

    private static int Run(Screen screen, DeliverRequest request, CancellationToken cancellation)
    {
        DeliverReport report;
        using (var progress = new ProgressLine(screen))
            report = new DeliverJob().Run(request, progress, cancellation);
        screen.Line(string.Create(CultureInfo.InvariantCulture, $"{report.Effects} effect(s), {report.Manifest.Files.Count} files in '{report.Folder}'."));
        screen.Line($"Open the report: {report.ReportPath}");
        screen.Line($"Next: athwart verify \"{report.Folder}\"");
        return ExitCode.Done;
    }
}
