using System.CommandLine;
using Athwart.Cli.Output;
using Athwart.Jobs.Cut;

namespace Athwart.Cli.Commands;

/// <summary><c>cut edit</c>, <c>split</c>, <c>join</c>, <c>remove</c> and <c>loop</c>.</summary>
internal static class CutChangeCommands
{
    public static Command Edit(Screen screen)
    {
        var (library, session, take, name) = (CommonOptions.Library(), CommonOptions.Session(), CutOptions.Take(), CutOptions.Name("The cut."));
        var from = CommonOptions.Place("--from", "Another start.");
        var to = CommonOptions.Place("--to", "Another end.");
        var snap = CutOptions.Snap();
        var fadeIn = CutOptions.Milliseconds("--fade-in", "Another fade at the start, in milliseconds.");
        var fadeOut = CutOptions.Milliseconds("--fade-out", "Another fade at the end, in milliseconds.");
        var curve = CutOptions.FadeCurve();
        var rename = new Option<string?>("--rename") { Description = "Another name.", HelpName = "NAME" };
        var sideLevel = CommonOptions.SideLevel("Another side level in decibels.");
        var command = new ExampledCommand(
            "edit",
            "Change the ends, the fades or the name of a cut.",
            "athwart cut edit --library lib --session \"Lock, spring\" --take T01 --name \"gate boom\" --from 8.55 --snap zero --fade-out 400 --fade-curve exponential")
        { library, session, take, name, from, to, snap, fadeIn, fadeOut, curve, rename, sideLevel };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () => Changed(screen, ChangeCutJob.Edit(
            CutOptions.Place(parsed, library, session, take, name),
            new()
            {
                From = parsed.GetValue(from),
                To = parsed.GetValue(to),
                Snap = parsed.GetValue(snap),
                FadeIn = CutOptions.Time(parsed.GetValue(fadeIn)),
                FadeOut = CutOptions.Time(parsed.GetValue(fadeOut)),
                FadeCurve = parsed.GetValue(curve),
                Name = parsed.GetValue(rename),
                SideLevel = parsed.GetValue(sideLevel),
            },
            cancellation)))));
        return command;
    }

    public static Command Split(Screen screen)
    {
        var (library, session, take, name) = (CommonOptions.Library(), CommonOptions.Session(), CutOptions.Take(), CutOptions.Name("The cut."));
        var at = CommonOptions.Place("--at", "Where, in the take.");
        at.Required = true;
        var snap = CutOptions.Snap();
        var command = new ExampledCommand(
            "split",
            "Make two cuts of one.",
            "athwart cut split --library lib --session \"Lock, spring\" --take T05 --name \"steps\" --at 2.4 --snap quiet")
        { library, session, take, name, at, snap };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () => Changed(
            screen,
            ChangeCutJob.Split(CutOptions.Place(parsed, library, session, take, name), parsed.GetValue(at)!.Value, parsed.GetValue(snap), cancellation)))));
        return command;
    }

    public static Command Join(Screen screen)
    {
        var (library, session, take, name) = (CommonOptions.Library(), CommonOptions.Session(), CutOptions.Take(), CutOptions.Name("The cut that stays."));
        var other = new Option<string>("--with") { Description = "The cut that goes into it.", HelpName = "NAME", Required = true };
        var command = new ExampledCommand(
            "join",
            "Make one cut of two of a take, with what lies between.",
            "athwart cut join --library lib --session \"Lock, spring\" --take T05 --name \"steps 01\" --with \"steps 02\"")
        { library, session, take, name, other };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () => Changed(
            screen,
            ChangeCutJob.Join(CutOptions.Place(parsed, library, session, take, name), parsed.GetValue(other)!, cancellation)))));
        return command;
    }

    public static Command Remove(Screen screen)
    {
        var (library, session, take, name) = (CommonOptions.Library(), CommonOptions.Session(), CutOptions.Take(), CutOptions.Name("The cut."));
        var command = new ExampledCommand(
            "remove",
            "Remove a cut; the recording and what was delivered stay.",
            "athwart cut remove --library lib --session \"Lock, spring\" --take T05 --name \"steps 03\"")
        { library, session, take, name };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            ChangeCutJob.Remove(CutOptions.Place(parsed, library, session, take, name), cancellation);
            screen.Line($"'{parsed.GetValue(name)}' is removed.");
            return ExitCode.Done;
        })));
        return command;
    }

    public static Command Loop(Screen screen)
    {
        var (library, session, take, name) = (CommonOptions.Library(), CommonOptions.Session(), CutOptions.Take(), CutOptions.Name("The loop's name."));
        var from = CommonOptions.Place("--from", "Not before; the start unless said.");
        var to = CommonOptions.Place("--to", "Not after; the end unless said.");
        var exactly = new Option<bool>("--exactly") { Description = "From there to there, instead of the best pair of places between." };
        var least = new Option<double?>("--least") { Description = "Shortest loop in seconds; a third of what there is unless said.", HelpName = "SECONDS" };
        var crossfade = CutOptions.Milliseconds("--crossfade", "Length of the cross-fade in milliseconds; 750 unless said.");
        var command = new ExampledCommand(
            "loop",
            "Find the best loop of a take and mark it as a cut that is led over into its own start.",
            "athwart cut loop --library lib --session \"Lock, spring\" --take T06 --name \"weir loop\"",
            "athwart cut loop --library lib --session \"Lock, spring\" --take T06 --name \"weir loop\" --from 2 --to 12 --exactly --crossfade 500")
        { library, session, take, name, from, to, exactly, least, crossfade };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            var (cut, proof) = ChangeCutJob.Loop(
                CutOptions.Place(parsed, library, session, take, name),
                new()
                {
                    From = parsed.GetValue(from),
                    To = parsed.GetValue(to),
                    Exactly = parsed.GetValue(exactly),
                    LeastSeconds = parsed.GetValue(least),
                    CrossfadeSeconds = parsed.GetValue(crossfade) / 1000,
                },
                cancellation);
            Changed(screen, cut);
            screen.Line(proof.ToString());
            return ExitCode.Done;
        })));
        return command;
    }

    private static int Changed(Screen screen, ChangedCuts changed)
    {
        CutTables.Cuts(screen, changed.Cuts);
        foreach (var remark in changed.Remarks)
            screen.Line(remark);
        return ExitCode.Done;
    }
}
