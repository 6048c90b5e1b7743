using System.CommandLine;
using System.Globalization;
using Athwart.Cli.Output;
using Athwart.Jobs.Shape;

namespace Athwart.Cli.Commands;

/// <summary><c>shape apply</c> and <c>propose</c>: what is done to the takes of a library.</summary>
internal static class ShapeApplyCommands
{
    public static Command Apply(Screen screen)
    {
        var treatment = new Argument<string?>("TREATMENT") { Description = "The treatment, by name or as a file; left out with --none.", Arity = ArgumentArity.ZeroOrOne };
        var library = CommonOptions.Library();
        var session = CommonOptions.Session();
        var takes = new Option<string[]>("--take") { Description = "A take; all of the session unless said. May be given again.", HelpName = "NAME" };
        var effects = new Option<string[]>("--effect") { Description = "An effect. May be given again.", HelpName = "NAME" };
        var none = new Option<bool>("--none") { Description = "Take the treatment away." };
        var command = new ExampledCommand(
            "apply",
            "Apply a treatment to takes or effects; nothing is rendered until they are delivered.",
            "athwart shape apply \"Ambience bed\" --library lib --session \"Lock, spring\" --take T05",
            "athwart shape apply --none --library lib --session \"Lock, spring\" --effect \"gate boom\"")
        { treatment, library, session, takes, effects, none };
        command.Validators.Add(result =>
        {
            if (result.GetValue(treatment) is null != result.GetValue(none))
                result.AddError("Name a treatment, or give --none.");
        });
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            var names = new TreatmentsJob().Apply(
                new()
                {
                    Library = parsed.GetValue(library)!,
                    Session = parsed.GetValue(session)!,
                    Treatment = parsed.GetValue(treatment),
                    Takes = parsed.GetValue(takes) ?? [],
                    Effects = parsed.GetValue(effects) ?? [],
                },
                cancellation);
            screen.Line($"{(parsed.GetValue(treatment) is { } name ? $"'{name}'" : "no treatment")}: {string.Join(", ", names)}");
            return ExitCode.Done;
        })));
        return command;
    }

    public static Command Propose(Screen screen)
    {
        var take = new Argument<string>("TAKE") { Description = "The take, by name or by the start of it." };
        var library = CommonOptions.Library();
        var session = CommonOptions.Session();
        var accept = new Option<string?>("--accept") { Description = "The steps to accept, such as 1,3; 'all' for all of them, 'none' to take accepted ones back.", HelpName = "N,N" };
        var command = new ExampledCommand(
            "propose",
            "Listen to a take and propose steps that answer what was found. Accepted ones are done to the take before any treatment.",
            "athwart shape propose T05 --library lib --session \"Lock, spring\"",
            "athwart shape propose T05 --library lib --session \"Lock, spring\" --accept 1,3")
        { take, library, session, accept };
        command.Validators.Add(result =>
        {
            if (result.GetValue(accept) is { } text && text is not ("all" or "none") && Numbers(text) is null)
                result.AddError($"'{text}' are no numbers of steps. Write them with commas between, such as 1,3, or 'all' or 'none'.");
        });
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            var chosen = parsed.GetValue(accept);
            var report = new ProposeJob().Run(
                new()
                {
                    Library = parsed.GetValue(library)!,
                    Session = parsed.GetValue(session)!,
                    Take = parsed.GetValue(take)!,
                    AcceptAll = chosen is "all",
                    Accept = chosen is null or "all" ? null : chosen is "none" ? [] : Numbers(chosen),
                },
                cancellation);
            ShapeWords.Proposals(screen, report);
            return ExitCode.Done;
        })));
        return command;
    }

    private static int[]? Numbers(string text)
    {
        var words = text.Split(',', StringSplitOptions.TrimEntries);
        var numbers = new int[words.Length];
        for (var i = 0; i < words.Length; i++)
        {
            if (!int.TryParse(words[i], NumberStyles.None, CultureInfo.InvariantCulture, out numbers[i]))
                return null;
        }

        return numbers;
    }
}
