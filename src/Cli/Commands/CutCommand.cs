using System.CommandLine;
using System.Globalization;
using Athwart.Jobs.Cut;

namespace Athwart.Cli.Commands;

/// <summary><c>cut</c>: marks effects in a take.</summary>
internal static class CutCommand
{
    public const string Summary = "Mark effects in a take of the library; nothing is rendered yet and the originals stay as they are.";

    public static Command Create(Screen screen)
    {
        var library = CommonOptions.Library();
        var session = CommonOptions.Session();
        var take = new Option<string>("--take") { Description = "The take, by name or by the start of it.", HelpName = "NAME", Required = true };
        var from = CommonOptions.Place("--from", "Where the cut begins; the start unless said.");
        var to = CommonOptions.Place("--to", "Where the cut ends; the end unless said.");
        var markers = new Option<bool>("--markers") { Description = "One cut for each marker that the file carries." };
        var whole = new Option<bool>("--whole") { Description = "The whole take as one cut." };
        var name = new Option<string?>("--name") { Description = "The effect's name; before the labels with --markers.", HelpName = "NAME" };
        var fadeIn = Fade("--fade-in", "Fade at the start, in milliseconds.");
        var fadeOut = Fade("--fade-out", "Fade at the end, in milliseconds.");
        var curve = CutOptions.FadeCurve();
        var snap = CutOptions.Snap();
        var sideLevel = CommonOptions.SideLevel("Side level of these effects in decibels; the session's unless said.");
        var tags = new Option<string[]>("--tag") { Description = "A word to find it by; may be given again.", HelpName = "WORD", AllowMultipleArgumentsPerToken = true };
        var notes = new Option<string?>("--notes") { Description = "A sentence about it, delivered as its description.", HelpName = "TEXT" };
        var command = new ExampledCommand(
            "cut",
            Summary,
            "athwart cut --library lib --session \"Lock, spring\" --take T01 --from 2.5 --to 6 --name \"gate boom\" --fade-out 200",
            "athwart cut --library lib --session \"Lock, spring\" --take T05 --markers --side-level -3")
        {
            library, session, take, from, to, markers, whole, name, fadeIn, fadeOut, curve, snap, sideLevel, tags, notes,
            CutFindCommand.Create(screen),
            CutApproveCommand.Create(screen),
            CutListCommand.Create(screen),
            CutChangeCommands.Edit(screen),
            CutChangeCommands.Split(screen),
            CutChangeCommands.Join(screen),
            CutChangeCommands.Remove(screen),
            CutChangeCommands.Loop(screen),
            CutListCommand.Alike(screen),
            CutListCommand.Rules(screen),
        };
        command.Validators.Add(result =>
        {
            var places = result.GetResult(from) is not null || result.GetResult(to) is not null;
            var ways = (places ? 1 : 0) + (result.GetValue(markers) ? 1 : 0) + (result.GetValue(whole) ? 1 : 0);
            if (ways != 1)
                result.AddError("Say where to cut in one way: --from and --to, or --markers, or --whole.");
        });
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () => Run(screen, new()
        {
            Library = parsed.GetValue(library)!,
            Session = parsed.GetValue(session)!,
            Take = parsed.GetValue(take)!,
            Source = parsed.GetValue(markers) ? CutSource.Markers : parsed.GetValue(whole) ? CutSource.Whole : CutSource.Given,
            From = parsed.GetValue(from) ?? TakePlace.Start,
            To = parsed.GetValue(to) ?? TakePlace.End,
            Name = parsed.GetValue(name),
            FadeIn = TimeSpan.FromMilliseconds(parsed.GetValue(fadeIn)),
            FadeOut = TimeSpan.FromMilliseconds(parsed.GetValue(fadeOut)),
            FadeCurve = parsed.GetValue(curve) ?? FadeWords.Default,
            Snap = parsed.GetValue(snap),
            SideLevel = parsed.GetValue(sideLevel),
            Tags = parsed.GetValue(tags) ?? [],
            Notes = parsed.GetValue(notes) ?? "",
        }, cancellation))));
        return command;
    }

    private static Option<double> Fade(string name, string description) => new(name) { Description = description, HelpName = "MS" };

    private static int Run(Screen screen, CutRequest request, CancellationToken cancellation)
    {
        var report = CutJob.Run(request, cancellation);
        foreach (var effect in report.Effects)
        {
            screen.Line(string.Create(
                CultureInfo.InvariantCulture,
                $"{report.Take}: '{effect.Name}' from {effect.Range.From.At(report.SampleRateHertz).TotalSeconds:0.000} s to {effect.Range.To.At(report.SampleRateHertz).TotalSeconds:0.000} s"));
        }

        foreach (var remark in report.Remarks)
            screen.Line(remark);
        screen.Line(string.Create(CultureInfo.InvariantCulture, $"{report.Effects.Count} effect(s) marked. Next: athwart deliver --library {request.Library} --session \"{request.Session}\" --to FOLDER"));
        return ExitCode.Done;
    }
}
