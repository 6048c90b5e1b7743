using System.CommandLine;
using Athwart.Jobs;
using Athwart.Jobs.Explain;

namespace Athwart.Cli.Commands;

/// <summary><c>explain</c>: what a finding means, how it is heard, how to avoid it.</summary>
internal static class ExplainCommand
{
    public const string Summary = "Say what a finding means, how it is heard, and how to avoid it next time.";

    public static ExampledCommand Create(Screen screen)
    {
        var kind = new Argument<string?>("KIND") { Description = "A kind of finding, as 'check' names it; all kinds are listed without one.", Arity = ArgumentArity.ZeroOrOne };
        kind.CompletionSources.Add(_ => Explanations.All.Select(e => new System.CommandLine.Completions.CompletionItem(e.Kind)));
        var picture = new Option<string?>("--picture") { Description = "Also draw a made example into this file, SVG, or PNG where the name ends so.", HelpName = "FILE" };
        var overwrite = CommonOptions.Overwrite();
        var command = new ExampledCommand(
            "explain",
            Summary,
            "athwart explain flat-tops",
            "athwart explain hum --picture hum.svg",
            "athwart explain")
        { kind, picture, overwrite };
        command.Validators.Add(result =>
        {
            if (result.GetValue(picture) is not null && result.GetValue(kind) is null)
                result.AddError("--picture draws one kind: name it.");
        });
        command.SetAction((parsed, _) => Task.FromResult(Failures.Run(screen, () =>
        {
            if (parsed.GetValue(kind) is not { } word)
                List(screen);
            else
                Explain(screen, word);
            if (parsed.GetValue(picture) is { } file)
            {
                ExamplePictures.Write(parsed.GetValue(kind)!, file, parsed.GetValue(overwrite));
                screen.Line($"{file}: what it looks like, a made example.");
            }

            return ExitCode.Done;
        })));
        return command;
    }

    private static void List(Screen screen)
    {
        foreach (var explanation in Explanations.All)
            screen.Line($"{explanation.Kind,-24} {explanation.What.Split(". ")[0].TrimEnd('.')}");
    }

    private static void Explain(Screen screen, string word)
    {
        var explanation = Explanations.Of(word) ?? throw new JobException(JobErrorKind.WrongUse, $"There is no finding '{word}'.", $"{Near(word)}'athwart explain' lists them all.");
        screen.Line(explanation.Kind);
        screen.Line("  " + explanation.What);
        screen.Line("  Heard: " + explanation.Heard);
        screen.Line("  Next time: " + explanation.Avoid);
    }

    private static string Near(string word)
    {
        var parts = word.Split('-', ' ');
        var near = Explanations.All.Select(e => e.Kind).Where(k => parts.Any(p => p.Length > 2 && k.Contains(p, StringComparison.OrdinalIgnoreCase))).Take(4).ToList();
        return near.Count == 0 ? "" : $"Did you mean {string.Join(" or ", near.Select(n => $"'{n}'"))}? ";
    }
}
