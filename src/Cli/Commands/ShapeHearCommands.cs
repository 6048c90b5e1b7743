using System.CommandLine;
using Athwart.Cli.Output;
using Athwart.Jobs.Cut;
using Athwart.Jobs.Shape;
using Athwart.Jobs.Shape.Sounds;
using Athwart.Quantities;

namespace Athwart.Cli.Commands;

/// <summary><c>shape try</c>, <c>measure</c> and <c>sounds</c>: a piece of a take with a treatment, as a file and in figures.</summary>
internal static class ShapeHearCommands
{
    public static Command Try(Screen screen)
    {
        var options = new Options();
        var output = new Option<string>("--out") { Description = "The stereo file to write, in 32-bit float.", HelpName = "FILE", Required = true };
        var overwrite = CommonOptions.Overwrite();
        var command = options.AddTo(new ExampledCommand(
            "try",
            "Render a piece of a take with a treatment, to be listened to.",
            "athwart shape try gate.wav --treatment \"Hard effect\" --from 2 --to 8 --out gate-try.wav",
            "athwart shape try T05 --library lib --session \"Lock, spring\" --treatment Water --out water-try.wav"));
        command.Options.Add(output);
        command.Options.Add(overwrite);
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            var (shaped, result) = TryJob.Run(options.Request(parsed), parsed.GetValue(output)!, parsed.GetValue(overwrite), cancellation);
            ShapeWords.Settled(screen, shaped);
            ShapeWords.Tried(screen, shaped, result);
            return ExitCode.Done;
        })));
        return command;
    }

    public static Command Measure(Screen screen)
    {
        var options = new Options();
        var pictures = new Option<string?>("--pictures") { Description = "A folder for a picture of what each step does to mid and side; made when it is not there.", HelpName = "DIR" };
        var command = options.AddTo(new ExampledCommand(
            "measure",
            "Measure a piece of a take before a treatment and after each of its steps: levels, correlation, peak and loudness.",
            "athwart shape measure gate.wav --treatment \"Hard effect\"",
            "athwart shape measure gate.wav --treatment \"Hard effect\" --pictures pictures"));
        var overwrite = CommonOptions.Overwrite();
        command.Options.Add(pictures);
        command.Options.Add(overwrite);
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            var shaped = ShapedTake.Open(options.Request(parsed), cancellation);
            ShapeWords.Settled(screen, shaped);
            ShapeWords.Figures(screen, MeasureJob.Run(shaped.Take, shaped.Roles, shaped.Treated, shaped.SideLevel.AmplitudeRatio, shaped.From, shaped.To, cancellation));
            if (parsed.GetValue(pictures) is { } folder)
                ShapeWords.Pictures(screen, StepPictures.Write(shaped.Treated.Steps, shaped.Take.SampleRateHertz, shaped.SideLevel.AmplitudeRatio, folder, parsed.GetValue(overwrite)));
            return ExitCode.Done;
        })));
        return command;
    }

    public static Command Sounds(Screen screen)
    {
        var step = new Argument<string?>("STEP") { Description = "One of them by its name; all unless said.", Arity = ArgumentArity.ZeroOrOne };
        var into = new Option<string>("--into") { Description = "The folder for sounds and pictures; made when it is not there.", HelpName = "DIR", Required = true };
        var overwrite = CommonOptions.Overwrite();
        var command = new ExampledCommand(
            "sounds",
            "Make a short sound before and after each step that treats mid and side apart, and a picture of what it did.",
            "athwart shape sounds --into steps",
            "athwart shape sounds mono-guard --into steps")
        { step, into, overwrite };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            foreach (var made in StepSoundsJob.Run(new(parsed.GetValue(into)!, parsed.GetValue(step), parsed.GetValue(overwrite)), cancellation))
            {
                screen.Line($"{made.Name}: {made.Says}");
                screen.Line("  " + string.Join(", ", made.Files.Select(Path.GetFileName)));
            }

            return ExitCode.Done;
        })));
        return command;
    }

    private sealed class Options
    {
        private readonly Argument<string> _take = new("TAKE") { Description = "A recording, or with --library the name of a take." };
        private readonly Option<string> _library = CommonOptions.Library(required: false);
        private readonly Option<string> _session = CommonOptions.Session(required: false);
        private readonly Option<string?> _treatment = new("--treatment") { Description = "The treatment, by name or as a file; the take's own unless said.", HelpName = "NAME" };
        private readonly Option<Decibels?> _sideLevel = CommonOptions.SideLevel("Side level in decibels; the treatment's unless said.");
        private readonly Option<TakePlace?> _from = CommonOptions.Place("--from", "Where the piece begins; the start unless said.");
        private readonly Option<TakePlace?> _to = CommonOptions.Place("--to", "Where it ends; the end unless said.");

        public ExampledCommand AddTo(ExampledCommand command)
        {
            command.Arguments.Add(_take);
            foreach (var option in new Option[] { _library, _session, _treatment, _sideLevel, _from, _to })
                command.Options.Add(option);
            return command;
        }

        public ShapeRequest Request(ParseResult parsed) => new()
        {
            Take = parsed.GetValue(_take)!,
            Library = parsed.GetValue(_library),
            Session = parsed.GetValue(_session),
            Treatment = parsed.GetValue(_treatment),
            SideLevel = parsed.GetValue(_sideLevel),
            From = parsed.GetValue(_from) ?? TakePlace.Start,
            To = parsed.GetValue(_to) ?? TakePlace.End,
        };
    }
}
