using System.CommandLine;
using Athwart.Jobs.Kits;
using Athwart.Microphones.Equipment;

namespace Athwart.Cli.Commands;

/// <summary><c>kit add</c>: one microphone, pattern, recorder or wind protection.</summary>
internal static class KitAddCommand
{
    public static ExampledCommand Create(Screen screen) => new(
        "add",
        "Add one thing to the kit; leave out what is not known. The library is made when there is none.",
        "athwart kit add microphone \"small cardioid\" --pattern cardioid --sensitivity 14 --noise 16 --owned --library lib",
        "athwart kit add recorder \"pocket recorder\" --inputs 2 --input-noise -119 --owned --library lib")
    {
        Microphone(screen),
        Setting(screen),
        Recorder(screen),
        Protection(screen),
    };

    private static ExampledCommand Microphone(Screen screen)
    {
        var (options, setting, body) = (new KitThingOptions("As you know it."), new KitSettingOptions(), new KitFigureOptions<Microphone>(MicrophoneFigures.All));
        var command = new ExampledCommand(
            "microphone",
            "Add a microphone. One that has several patterns gets the others by 'kit add setting'.",
            "athwart kit add microphone \"small cardioid\" --pattern cardioid --sensitivity 14 --noise 16 --maximum-level 134 --low-end 30 --high-end 20000 --price \"140 EUR\" --owned --count 2 --library lib");
        options.AddTo(command, setting.All, body.All);
        options.Run(command, screen, parsed => new()
        {
            Microphones =
            [
                body.Fill(parsed, new()
                {
                    Name = options.NameOf(parsed),
                    Settings = [setting.Of(parsed)],
                    Price = options.PriceOf(parsed),
                    Owned = options.OwnedOf(parsed),
                    Notes = options.NotesOf(parsed),
                }),
            ],
        });
        return command;
    }

    private static ExampledCommand Setting(Screen screen)
    {
        var name = new Argument<string>("NAME") { Description = "A microphone of the kit." };
        var (setting, library, json) = (new KitSettingOptions(), CommonOptions.Library(), CommonOptions.Json("what was added and every fault"));
        var command = new ExampledCommand(
            "setting",
            "Add another pattern to a microphone of the kit: a position of its switch, or another capsule for its body.",
            "athwart kit add setting \"studio microphone\" --label figure-8 --pattern figure-8 --sensitivity 20 --noise 9 --library lib")
        { name, library, json };
        foreach (var option in setting.All)
            command.Options.Add(option);
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
            KitCommand.Finish(screen, KitImportJob.AddSetting(parsed.GetValue(library)!, parsed.GetValue(name)!, setting.Of(parsed)), parsed.GetValue(json)))));
        return command;
    }

    private static ExampledCommand Recorder(Screen screen)
    {
        var (options, figures) = (new KitThingOptions("As you know it."), new KitFigureOptions<Recorder>(RecorderFigures.All));
        var decodes = new Option<bool?>("--decodes-for-monitoring") { Description = "Whether mid-side can be heard decoded while recording: true or false.", HelpName = "BOOL" };
        var command = new ExampledCommand(
            "recorder",
            "Add a recorder with its microphone inputs.",
            "athwart kit add recorder \"pocket recorder\" --inputs 2 --input-noise -119 --maximum-input 2 --decodes-for-monitoring false --owned --library lib");
        options.AddTo(command, figures.All, [decodes]);
        options.Run(command, screen, parsed => new()
        {
            Recorders =
            [
                figures.Fill(parsed, new()
                {
                    Name = options.NameOf(parsed),
                    DecodesForMonitoring = parsed.GetValue(decodes),
                    Price = options.PriceOf(parsed),
                    Owned = options.OwnedOf(parsed),
                    Notes = options.NotesOf(parsed),
                }),
            ],
        });
        return command;
    }

    private static ExampledCommand Protection(Screen screen)
    {
        var (options, figures) = (new KitThingOptions("As you know it."), new KitFigureOptions<WindProtection>(ProtectionFigures.All));
        var command = new ExampledCommand(
            "protection",
            "Add a wind protection that holds both microphones.",
            "athwart kit add protection \"short cage\" --inner-length 210 --inner-diameter 95 --low-loss 1 --price \"240 EUR\" --library lib");
        options.AddTo(command, figures.All, []);
        options.Run(command, screen, parsed => new()
        {
            Protections =
            [
                figures.Fill(parsed, new()
                {
                    Name = options.NameOf(parsed),
                    Price = options.PriceOf(parsed),
                    Owned = options.OwnedOf(parsed),
                    Notes = options.NotesOf(parsed),
                }),
            ],
        });
        return command;
    }
}
