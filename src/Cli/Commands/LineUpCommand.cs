using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using System.Text.Json;
using Athwart.Cli.Output;
using Athwart.Jobs.LineUp;
using Athwart.Metering.LineUp;
using Athwart.Quantities;

namespace Athwart.Cli.Commands;

/// <summary><c>line-up</c>: measures a rig from one take with sounds from known directions.</summary>
internal static class LineUpCommand
{
    public const string Summary = "Measure a rig from one take with claps from known directions: roles, polarity, gain offset, delay, response, noise. Nothing is written to the recording.";

    private const double MetresASecondAtFreezing = 331.3;
    private const double FreezingKelvin = 273.15;

    public static Command Create(Screen screen)
    {
        var path = new Argument<string?>("TAKE") { Description = "The recording of the line-up.", Arity = ArgumentArity.ZeroOrOne };
        var library = CommonOptions.Library(required: false);
        var session = CommonOptions.Session(required: false);
        var take = new Option<string?>("--take") { Description = "The take of the session that holds the line-up.", HelpName = "NAME" };
        var rig = new Option<string?>("--rig") { Description = "Keep the profile in the library under this name, for this session, and say what changed since the last one.", HelpName = "NAME" };
        var order = new Option<IReadOnlyList<LineUpDirection>?>("--order")
        {
            Description = "Where the sounds came from, in order, with commas between: front, left, right, rear, silence, or degrees, positive to the left. front,left,right,rear unless said; the last may be missing then.",
            HelpName = "LIST",
            CustomParser = ParseOrder,
        };
        var pattern = Number("--mid-pattern", "The mid's pattern as A of A + (1 − A)·cos: 1 omnidirectional, 0.5 cardioid, 0.37 supercardioid, 0.25 hypercardioid. Solved where it can be, else a cardioid.", "A", 0, 1);
        var direct = Number("--direct", "Milliseconds before the first reflection arrives; 2 unless said.", "MS", 0.5, 20);
        var air = Number("--air-temp", "Temperature of the air in degrees Celsius, for the spacing; 20 unless said.", "C", -40, 50);
        var midFullScale = Number("--mid-full-scale", "Sound pressure level in dB that a full-scale sine in the mid stands for, to have its noise in dB(A).", "DB", 40, 200);
        var sideFullScale = Number("--side-full-scale", "The same of the side.", "DB", 40, 200);
        var json = CommonOptions.Json("the whole measurement");
        var command = new ExampledCommand(
            "line-up",
            Summary,
            "athwart line-up line-up.wav",
            "athwart line-up line-up.wav --order front,left,right --mid-pattern 0.37 --json",
            "athwart line-up --library lib --session \"Lock, spring\" --take T01 --rig \"short blimp\"")
        { path, library, session, take, rig, order, pattern, direct, air, midFullScale, sideFullScale, json };
        command.Validators.Add(result =>
        {
            if ((result.GetValue(path) is not null) == (result.GetValue(library) is not null))
                result.AddError("Name the recording of a line-up, or --library, --session and --take.");
            else if (result.GetValue(library) is not null && (result.GetValue(session) is null || result.GetValue(take) is null))
                result.AddError("Name the session with --session and the take with --take.");
            else if (result.GetValue(rig) is not null && result.GetValue(library) is null)
                result.AddError("--rig keeps the profile in a library: name the take by --library, --session and --take.");
        });
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            var report = LineUpJob.Run(new()
            {
                Path = parsed.GetValue(path),
                Library = parsed.GetValue(library),
                Session = parsed.GetValue(session),
                Take = parsed.GetValue(take),
                Rig = parsed.GetValue(rig),
                MidFullScale = parsed.GetValue(midFullScale),
                SideFullScale = parsed.GetValue(sideFullScale),
                Settings = new()
                {
                    Order = parsed.GetValue(order),
                    MidPattern = parsed.GetValue(pattern),
                    DirectMilliseconds = parsed.GetValue(direct) ?? 2,
                    SpeedOfSound = MetresASecondAtFreezing * Math.Sqrt(1 + ((parsed.GetValue(air) ?? 20) / FreezingKelvin)),
                },
            }, cancellation);
            if (parsed.GetValue(json))
                screen.Line(JsonSerializer.Serialize(LineUpDocument.From(report), LineUpJson.Readable.LineUpDocument));
            else
                LineUpTables.Write(screen, report);
            return report.Result.Findings.Any(f => f.Severity == FindingSeverity.Fault) || !report.Result.GainOffset.IsKnown ? ExitCode.FaultFound : ExitCode.Done;
        })));
        return command;
    }

    private static List<LineUpDirection>? ParseOrder(ArgumentResult result)
    {
        var order = new List<LineUpDirection>();
        foreach (var word in result.Tokens[0].Value.Split(','))
        {
            if (!LineUpDirection.TryParse(word, out var direction))
            {
                result.AddError($"'{word}' is no direction. Write front, left, right, rear, silence, or degrees such as 45 or -45, with commas between.");
                return null;
            }

            order.Add(direction);
        }

        if (order.TrueForAll(d => d.IsSilence))
            result.AddError("--order names at least one direction that is not silence.");
        return order;
    }

    private static Option<double?> Number(string name, string description, string unit, double least, double most) => new(name)
    {
        Description = description,
        HelpName = unit,
        CustomParser = result =>
        {
            var text = result.Tokens[0].Value;
            if (double.TryParse(text.Replace('−', '-'), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && value >= least && value <= most)
                return value;
            result.AddError(string.Create(CultureInfo.InvariantCulture, $"{name} takes a number from {least} to {most}, not '{text}'."));
            return null;
        },
    };
}
