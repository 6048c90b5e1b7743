using System.CommandLine;
using System.Text.Json;
using Athwart.Cli.Output;
using Athwart.Jobs.PlanRig;

namespace Athwart.Cli.Commands;

/// <summary><c>rig</c>: what a pair of microphones covers, costs and can take; which to choose; the sheet to take along.</summary>
internal static class RigCommand
{
    public const string Summary = "Plan the pair: what it covers, how the gains must differ, how quiet and loud it can go, which to choose, and the field sheet.";

    public static Command Create(Screen screen) => new ExampledCommand(
        "rig",
        Summary,
        "athwart rig show --mid cardioid --side-level -3",
        "athwart rig choose --demo-kit --budget \"900 EUR\" --path 40 --distance 12 --quietest 45 --loudest 95")
    {
        Show(screen),
        RigChooseCommand.Create(screen),
        Compare(screen),
        Sheet(screen),
    };

    private static ExampledCommand Show(Screen screen)
    {
        var (rig, outing, kit) = (new RigOptions(), new OutingOptions(), new KitSource());
        var page = PageOption("Also write a page with every picture and table to this file.");
        var pictures = new Option<string?>("--pictures") { Description = "Also write the pictures as SVG files into this folder.", HelpName = "DIR" };
        var png = new Option<bool>("--png") { Description = "With --pictures: as PNG too." };
        var json = CommonOptions.Json("the whole plan");
        var command = new ExampledCommand(
            "show",
            "Everything about one rig: coverage, where sources land, diffuse field, gains, noise, weather, card and batteries.",
            "athwart rig show --mid cardioid --side-level -3",
            "athwart rig show --mid 0.4 --coverage 90 --spacing -25",
            "athwart rig show --demo-kit --mid \"short shotgun A\" --side \"small figure-8 A\" --recorder \"four-input recorder\" --quietest 45 --loudest 95 --width 8 --distance 12 --suit-subject");
        rig.AddTo(command);
        outing.AddTo(command);
        kit.AddTo(command);
        foreach (var option in (Option[])[page, pictures, png, json])
            command.Add(option);
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        {
            var plan = PlanRigJob.Run(new(rig.Read(parsed), outing.Read(parsed), kit.Read(parsed)));
            if (parsed.GetValue(pictures) is { } folder)
                PlanRigJob.WritePictures(folder, plan, parsed.GetValue(png), parsed.GetValue(kit.Overwrite));
            if (parsed.GetValue(page) is { } file)
                PlanRigJob.WritePage(file, [plan], parsed.GetValue(kit.Overwrite));
            if (parsed.GetValue(json))
                screen.Line(JsonSerializer.Serialize(plan.Document, RigJson.Readable.RigDocument));
            else
                RigTables.Show(screen, plan.Document);
            Say(screen, parsed.GetValue(page), parsed.GetValue(json));
            return ExitCode.Done;
        })));
        return command;
    }

    private static ExampledCommand Compare(Screen screen)
    {
        var rigs = new Argument<string[]>("RIG") { Description = "Rigs in one line each, as 'rig choose' prints them: \"MID + SIDE @ LEVEL\".", Arity = new(2, 6) };
        var recorder = new Option<string?>("--recorder") { Description = "A recorder of the kit.", HelpName = "NAME" };
        var protection = new Option<string?>("--protection") { Description = "A wind protection of the kit.", HelpName = "NAME" };
        var (outing, kit) = (new OutingOptions(), new KitSource());
        var page = PageOption("Also write a page with the pictures side by side to this file.");
        var json = CommonOptions.Json("the plans");
        var command = new ExampledCommand(
            "compare",
            "Two to six rigs side by side.",
            "athwart rig compare \"cardioid @ -3\" \"hypercardioid @ 0\"",
            "athwart rig compare \"cardioid @ -3\" \"omni @ 0\" \"figure-8 @ 0\" --json")
        { rigs, recorder, protection };
        outing.AddTo(command);
        kit.AddTo(command);
        command.Add(page);
        command.Add(json);
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        {
            var (conditions, owned) = (outing.Read(parsed), kit.Read(parsed));
            var plans = parsed.GetValue(rigs)!
                .Select(text => RigWish.Parse(text) with { Recorder = parsed.GetValue(recorder), Protection = parsed.GetValue(protection) })
                .Select(wish => PlanRigJob.Run(new(wish, conditions, owned))).ToList();
            if (parsed.GetValue(page) is { } file)
                PlanRigJob.WritePage(file, plans, parsed.GetValue(kit.Overwrite));
            IReadOnlyList<RigDocument> documents = [.. plans.Select(p => p.Document)];
            if (parsed.GetValue(json))
                screen.Line(JsonSerializer.Serialize(documents, RigJson.Readable.IReadOnlyListRigDocument));
            else
                RigTables.Compare(screen, documents);
            Say(screen, parsed.GetValue(page), parsed.GetValue(json));
            return ExitCode.Done;
        })));
        return command;
    }

    private static ExampledCommand Sheet(Screen screen)
    {
        var file = new Argument<string>("FILE") { Description = "The HTML file to write; it prints on one page of A4 or Letter." };
        var title = new Option<string?>("--title") { Description = "What is to be recorded.", HelpName = "TEXT" };
        var place = new Option<string?>("--place") { Description = "Where.", HelpName = "TEXT" };
        var date = new Option<string?>("--date") { Description = "When.", HelpName = "TEXT" };
        var (rig, outing, kit) = (new RigOptions(), new OutingOptions(), new KitSource());
        var json = CommonOptions.Json("what is on the sheet");
        var command = new ExampledCommand(
            "sheet",
            "Write the field sheet: one page that says how to set up, what to set, what to record first, what to listen for and what to beware of.",
            "athwart rig sheet sheet.html --mid cardioid --side-level -3 --title \"Lock gates\" --hazard lock-edge,water");
        command.Add(file);
        foreach (var option in (Option[])[title, place, date])
            command.Add(option);
        rig.AddTo(command);
        outing.AddTo(command);
        kit.AddTo(command);
        command.Add(json);
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        {
            var conditions = outing.Read(parsed) with { Title = parsed.GetValue(title) ?? "", Place = parsed.GetValue(place) ?? "", Date = parsed.GetValue(date) ?? "" };
            var plan = PlanRigJob.Run(new(rig.Read(parsed), conditions, kit.Read(parsed)));
            PlanRigJob.WriteSheet(parsed.GetValue(file)!, plan, parsed.GetValue(kit.Overwrite));
            if (parsed.GetValue(json))
                screen.Line(JsonSerializer.Serialize(plan.Document, RigJson.Readable.RigDocument));
            else
                screen.Line($"{parsed.GetValue(file)}: the sheet for {plan.Document.Rig}. Open it and print it on one page.");
            return ExitCode.Done;
        })));
        return command;
    }

    internal static Option<string?> PageOption(string description) => new("--page") { Description = description, HelpName = "FILE" };

    // With --json standard output is for programs alone.
    internal static void Say(Screen screen, string? page, bool json)
    {
        if (page is null)
            return;
        if (json)
            screen.Error($"{page} is written.");
        else
            screen.Line($"{page} is written: open it in a browser.");
    }
}
