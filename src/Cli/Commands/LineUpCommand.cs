using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using System.Text.Json;
using Athwart.Cli.Output;
using Athwart.Jobs.Kits;
using Athwart.Jobs.LineUp;
using Athwart.Metering.LineUp;
using Athwart.Microphones.Equipment;
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
        var pattern = new Option<string?>("--mid-pattern") { Description = "The mid's pattern: a word such as cardioid, A of A + (1 − A)·cos from 0 to 1, or a microphone of the kit. Solved where it can be, else a cardioid.", HelpName = "PATTERN" };
        var direct = Number("--direct", "Milliseconds before the first reflection arrives; 2 unless said.", "MS", 0.5, 20);
        var air = Number("--air-temp", "Temperature of the air in degrees Celsius, for the spacing; 20 unless said.", "C", -40, 50);
        var midFullScale = Number("--mid-full-scale", "Sound pressure level in dB that a full-scale sine in the mid stands for, to have its noise in dB(A).", "DB", 40, 200);
        var sideFullScale = Number("--side-full-scale", "The same of the side.", "DB", 40, 200);
        var kit = new Option<string?>("--kit") { Description = "The library whose kit is looked in; that of --library unless said.", HelpName = "DIR" };
        var demoKit = new Option<bool>("--demo-kit") { Description = "Look in the invented kit of the demo." };
        var midMicrophone = new Option<string?>("--mid-mic") { Description = "The mid's microphone in the kit: its pattern and its sensitivity.", HelpName = "NAME" };
        var sideMicrophone = new Option<string?>("--side-mic") { Description = "The side's microphone in the kit.", HelpName = "NAME" };
        var recorder = new Option<string?>("--recorder") { Description = "The recorder in the kit: with the gains, noise is given at the input and in dBA.", HelpName = "NAME" };
        var midGain = Number("--mid-gain", "The gain of the mid's input in dB.", "DB", -40, 120);
        var sideGain = Number("--side-gain", "The gain of the side's input in dB.", "DB", -40, 120);
        var list = new Option<bool>("--list") { Description = "List the profiles the library keeps, of --rig or of all, and what changed; with --pictures draw how they went." };
        var attach = new Option<string?>("--attach") { Description = "Say that the session was recorded with this rig: its last profile is used when the session is checked.", HelpName = "RIG" };
        var pictures = new Option<string?>("--pictures") { Description = "Also write the pictures as SVG files into this folder.", HelpName = "DIR" };
        var page = RigCommand.PageOption("Also write a page with every picture and sentence to this file.");
        var overwrite = CommonOptions.Overwrite();
        var json = CommonOptions.Json("the whole measurement");
        var command = new ExampledCommand(
            "line-up",
            Summary,
            "athwart line-up line-up.wav",
            "athwart line-up line-up.wav --order front,left,right --mid-pattern supercardioid --json",
            "athwart line-up line-up.wav --page rig.html --pictures rig",
            "athwart line-up --list --library lib",
            "athwart line-up --attach \"short blimp\" --library lib --session \"Lock, spring\"",
            "athwart line-up --library lib --session \"Lock, spring\" --take T01 --rig \"short blimp\"")
        { path, library, session, take, rig, order, pattern, direct, air, kit, demoKit, midMicrophone, sideMicrophone, recorder, midGain, sideGain, midFullScale, sideFullScale, list, attach, pictures, page, overwrite, json };
        command.Validators.Add(result =>
        {
            var (loose, folder) = (result.GetValue(path) is not null, result.GetValue(library) is not null);
            if (result.GetValue(list) || result.GetValue(attach) is not null)
            {
                if (loose || !folder)
                    result.AddError("--list and --attach are about a library: name it with --library, and no recording.");
                else if (result.GetValue(attach) is not null && (result.GetValue(session) is null || result.GetValue(list)))
                    result.AddError("--attach needs the session, --session, and no --list.");
            }
            else if (loose == folder)
            {
                result.AddError("Name the recording of a line-up, or --library, --session and --take.");
            }
            else if (folder && (result.GetValue(session) is null || result.GetValue(take) is null))
            {
                result.AddError("Name the session with --session and the take with --take.");
            }
            else if (result.GetValue(rig) is not null && !folder)
            {
                result.AddError("--rig keeps the profile in a library: name the take by --library, --session and --take.");
            }
        });
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            if (parsed.GetValue(list))
                return List(screen, parsed.GetValue(library)!, parsed.GetValue(rig), parsed.GetValue(pictures), parsed.GetValue(overwrite), parsed.GetValue(json));
            if (parsed.GetValue(attach) is { } named)
            {
                var profile = LineUpProfiles.Attach(parsed.GetValue(library)!, parsed.GetValue(session)!, named, cancellation);
                screen.Line($"The session is checked with '{profile.Rig}' as measured on {profile.Measured}.");
                return ExitCode.Done;
            }

            var report = LineUpJob.Run(new()
            {
                Path = parsed.GetValue(path),
                Library = parsed.GetValue(library),
                Session = parsed.GetValue(session),
                Take = parsed.GetValue(take),
                Rig = parsed.GetValue(rig),
                MidFullScale = parsed.GetValue(midFullScale),
                SideFullScale = parsed.GetValue(sideFullScale),
                MidPattern = parsed.GetValue(pattern),
                Kit = new(
                    Kit(parsed.GetValue(demoKit), parsed.GetValue(kit) ?? parsed.GetValue(library)),
                    parsed.GetValue(midMicrophone),
                    parsed.GetValue(sideMicrophone),
                    parsed.GetValue(recorder),
                    parsed.GetValue(midGain),
                    parsed.GetValue(sideGain)),
                Settings = new()
                {
                    Order = parsed.GetValue(order),
                    DirectMilliseconds = parsed.GetValue(direct) ?? 2,
                    SpeedOfSound = MetresASecondAtFreezing * Math.Sqrt(1 + ((parsed.GetValue(air) ?? 20) / FreezingKelvin)),
                },
            }, cancellation);
            if (parsed.GetValue(json))
                screen.Line(JsonSerializer.Serialize(LineUpDocument.From(report), LineUpJson.Readable.LineUpDocument));
            else
                LineUpTables.Write(screen, report);
            if (parsed.GetValue(pictures) is { } folder)
                LineUpPictures.Write(folder, report, parsed.GetValue(overwrite));
            if (parsed.GetValue(page) is { } file)
                LineUpPictures.WritePage(file, report, parsed.GetValue(overwrite));
            RigCommand.Say(screen, parsed.GetValue(page), parsed.GetValue(json));
            return report.Result.Findings.Any(f => f.Severity == FindingSeverity.Fault) || !report.Result.GainOffset.IsKnown ? ExitCode.FaultFound : ExitCode.Done;
        })));
        return command;
    }

    private static Kit Kit(bool demo, string? library) => demo ? DemoKit.Kit : library is null ? Microphones.Equipment.Kit.Empty : KitStore.Load(library);

    private static int List(Screen screen, string library, string? rig, string? pictures, bool overwrite, bool json)
    {
        var profiles = LineUpProfiles.List(library, rig);
        if (json)
            screen.Line(JsonSerializer.Serialize(profiles, LineUpJson.Readable.IReadOnlyListRigProfileDocument));
        else
            LineUpTables.Profiles(screen, profiles);
        if (pictures is not null)
        {
            foreach (var file in ProfilePictures.Write(pictures, profiles, overwrite))
                screen.Error($"{file} is written.");
        }

        return ExitCode.Done;
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
