using System.CommandLine;
using System.Text.Json;
using Athwart.Cli.Output;
using Athwart.Jobs.CheckTakes;
using Athwart.Quantities;

namespace Athwart.Cli.Commands;

/// <summary><c>check</c>: is each take sound, and if not, what is wrong, where, how bad, what to do.</summary>
internal static class CheckCommand
{
    public const string Summary = "Prove each take sound, or say what is wrong, where, how bad and what to do. Nothing is written to the recordings.";

    public static Command Create(Screen screen)
    {
        var paths = new Argument<string[]>("PATH") { Description = "Recordings, or folders that are searched with all below.", Arity = ArgumentArity.ZeroOrMore };
        var library = CommonOptions.Library(required: false);
        var session = CommonOptions.Session(required: false);
        var take = new Option<string?>("--take") { Description = "One take of the session only.", HelpName = "NAME" };
        var sideLevel = CommonOptions.SideLevel("Side level at which the decode is judged, in decibels; the session's, or 0, unless said.");
        var mid = CommonOptions.Mid();
        var side = CommonOptions.Side();
        var invert = CommonOptions.InvertSide();
        var json = CommonOptions.Json("every measure and finding");
        var disturbances = new Option<bool>("--disturbances") { Description = "Also listen for clicks, dropouts, repeated and missing blocks, hum, wind, thumps and rumble. New: sounds that are like them are still taken for them." };
        var pictures = new Option<string?>("--pictures") { Description = "Also write a picture for every finding into this folder (SVG), and a page that shows them all.", HelpName = "DIR" };
        var overwrite = CommonOptions.Overwrite();
        var threads = Threads();
        var command = new ExampledCommand(
            "check",
            Summary,
            "athwart check card/T01.wav",
            "athwart check card --json",
            "athwart check card --disturbances --pictures evidence",
            "athwart check --library lib --session \"Lock, spring\" --side-level -3")
        { paths, library, session, take, sideLevel, mid, side, invert, disturbances, pictures, overwrite, json, threads };
        command.Validators.Add(result =>
        {
            var loose = result.GetValue(paths) is { Length: > 0 };
            var inLibrary = result.GetValue(library) is not null;
            if (loose == inLibrary)
                result.AddError("Name recordings or folders to check, or --library and --session.");
            else if (inLibrary && result.GetValue(session) is null)
                result.AddError("Name the session with --session.");
        });
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            CheckReport report;
            using (var progress = new ProgressLine(screen))
            {
                report = parsed.GetValue(library) is { } folder
                    ? CheckSessionJob.Run(new(folder, parsed.GetValue(session)!, parsed.GetValue(take), parsed.GetValue(sideLevel), parsed.GetValue(threads), parsed.GetValue(disturbances)), progress, cancellation)
                    : CheckJob.Run(new()
                    {
                        Paths = parsed.GetValue(paths)!,
                        SideLevel = parsed.GetValue(sideLevel) ?? Decibels.Unity,
                        TakeRoles = CommonOptions.Roles(parsed, mid, side, invert),
                        Disturbances = parsed.GetValue(disturbances),
                        Threads = parsed.GetValue(threads),
                    }, progress, cancellation);
            }

            if (parsed.GetValue(pictures) is { } evidence)
                report = CheckPictures.Write(evidence, report, parsed.GetValue(overwrite), cancellation);

            if (parsed.GetValue(json))
                screen.Line(JsonSerializer.Serialize(CheckDocument.From(report), CheckJson.Readable.CheckDocument));
            else
                CheckTables.Write(screen, report);
            RigCommand.Say(screen, parsed.GetValue(pictures) is { } drawn ? Path.Combine(drawn, CheckPictures.Page) : null, parsed.GetValue(json));
            return report.HasFaults ? ExitCode.FaultFound : ExitCode.Done;
        })));
        return command;
    }

    /// <summary>How many takes at once.</summary>
    public static Option<int> Threads()
    {
        var option = new Option<int>("--threads") { Description = "How many processors to use; all unless said.", HelpName = "N", DefaultValueFactory = _ => Environment.ProcessorCount };
        option.Validators.Add(result =>
        {
            if (result.GetValue(option) < 1)
                result.AddError("--threads takes 1 or more.");
        });
        return option;
    }
}
