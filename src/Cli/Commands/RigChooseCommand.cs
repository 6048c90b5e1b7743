using System.CommandLine;
using System.Text.Json;
using Athwart.Cli.Output;
using Athwart.Jobs.PlanRig;

namespace Athwart.Cli.Commands;

/// <summary><c>rig choose</c>: which pair of the kit does what is asked, ranked, with the reason for each place.</summary>
internal static class RigChooseCommand
{
    public static Command Create(Screen screen)
    {
        var budget = new Option<string?>("--budget") { Description = "The most to spend on what is not owned, with its currency: \"900 EUR\".", HelpName = "PRICE" };
        var coverage = RigOptions.Number("--coverage", "The coverage wanted, in degrees; the one that suits the subject unless said.", "DEG");
        var level = CommonOptions.SideLevel("Take every pair at this side level instead of searching for the coverage.");
        var margin = RigOptions.Number("--quiet-margin", "How far the quietest sound is to lie above the noise, in dB; 10 unless said.", "DB");
        var recorder = new Option<string?>("--recorder") { Description = "The recorder to use; each of the kit is tried unless said.", HelpName = "NAME" };
        var protection = new Option<string?>("--protection") { Description = "The wind protection both have to fit into.", HelpName = "NAME" };
        var weight = RigOptions.Number("--most-weight", "The most that may hang on the boom, in grams.", "G");
        var pickup = RigOptions.Number("--mono-pickup", "The widest the mid may hear in mono, to -6 dB, in degrees.", "DEG");
        var highest = RigOptions.Number("--reach", "The highest frequency both microphones and the recorder must reach, in hertz.", "HZ");
        var monitoring = new Option<bool>("--monitoring") { Description = "The recorder must decode for the headphones." };
        var matters = new Option<string?>("--matters") { Description = "What matters, the most first: coverage,noise,cost unless said; weight too.", HelpName = "LIST" };
        var shown = new Option<int>("--top") { Description = "How many pairs to print; the JSON has them all.", DefaultValueFactory = _ => 10, HelpName = "N" };
        var (outing, kit) = (new OutingOptions(), new KitSource());
        var page = RigCommand.PageOption("Also write a page with the trade-offs drawn to this file.");
        var json = CommonOptions.Json("every pair, ranked or rejected");
        var command = new ExampledCommand(
            "choose",
            "Search every mid with every figure-8 of the kit, each side level, gain and recorder, for what is asked.",
            "athwart rig choose --demo-kit --budget \"900 EUR\" --path 40 --distance 12 --quietest 45 --loudest 95",
            "athwart rig choose --demo-kit --coverage 90 --matters noise,cost --most-weight 700 --json")
        { budget, coverage, level, margin, recorder, protection, weight, pickup, highest, monitoring, matters, shown };
        outing.AddTo(command);
        kit.AddTo(command);
        command.Add(page);
        command.Add(json);
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        {
            var request = new ChooseRigRequest
            {
                Kit = kit.Read(parsed),
                Outing = outing.Read(parsed),
                Budget = parsed.GetValue(budget),
                CoverageDegrees = parsed.GetValue(coverage),
                SideLevel = parsed.GetValue(level),
                QuietMarginDecibels = parsed.GetValue(margin),
                Recorder = parsed.GetValue(recorder),
                Protection = parsed.GetValue(protection),
                MostGrams = parsed.GetValue(weight),
                MonoPickupDegrees = parsed.GetValue(pickup),
                HighestHertz = parsed.GetValue(highest),
                Monitoring = parsed.GetValue(monitoring),
                Matters = parsed.GetValue(matters),
            };
            var document = ChooseRigJob.Run(request);
            if (parsed.GetValue(page) is { } file)
                ChooseRigJob.WritePage(file, document, parsed.GetValue(kit.Overwrite));
            if (parsed.GetValue(json))
                screen.Line(JsonSerializer.Serialize(document, RigJson.Readable.ChoiceDocument));
            else
                RigTables.Choice(screen, document, parsed.GetValue(shown));
            RigCommand.Say(screen, parsed.GetValue(page), parsed.GetValue(json));
            return document.Ranked.Count > 0 ? ExitCode.Done : ExitCode.FaultFound;
        })));
        return command;
    }
}
