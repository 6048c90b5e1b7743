using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Parsing;
using Athwart.Cli.Commands;

namespace Athwart.Cli;

/// <summary>Every command of the program, and the way one is run.</summary>
internal static class CommandTree
{
    /// <summary>How long a command may take to leave things tidy after Ctrl-C before the process ends all the same.</summary>
    private static readonly TimeSpan TidyUp = TimeSpan.FromSeconds(30);

    /// <summary>Reads and runs a command line.</summary>
    /// <returns>One of <see cref="ExitCode"/>.</returns>
    public static async Task<int> RunAsync(string[] args, Screen screen)
    {
        var parsed = CreateFor(args, screen).Parse(args);
        // A suggestion request is answered even though its command line is not finished yet.
        var isDirective = args.Length > 0 && args[0].StartsWith('[');
        var unknown = isDirective ? [] : UnknownOptions(parsed).ToList();
        if (unknown.Count > 0 || (parsed.Errors.Count > 0 && !isDirective))
            return Misused(parsed, unknown, screen);
        return await parsed.InvokeAsync(new InvocationConfiguration
        {
            Output = screen.Output,
            Error = screen.ErrorOutput,
            EnableDefaultExceptionHandler = false,
            ProcessTerminationTimeout = TidyUp,
        });
    }

    /// <summary>The commands, in the order of the day.</summary>
    internal static IReadOnlyList<CommandEntry> Entries { get; } =
    [
        new("demo", DemoCommand.Summary, DemoCommand.Create),
        new("desk", DeskCommand.Summary, DeskCommand.Create),
        new("kit", KitCommand.Summary, KitCommand.Create),
        new("rig", RigCommand.Summary, RigCommand.Create),
        new("take-in", TakeInCommand.Summary, TakeInCommand.Create),
        new("takes", TakesCommand.Summary, TakesCommand.Create),
        new("line-up", LineUpCommand.Summary, LineUpCommand.Create),
        new("check", CheckCommand.Summary, CheckCommand.Create),
        new("explain", ExplainCommand.Summary, ExplainCommand.Create),
        new("roles", RolesCommand.Summary, RolesCommand.Create),
        new("decode", DecodeCommand.Summary, DecodeCommand.Create),
        new("cut", CutCommand.Summary, CutCommand.Create),
        new("shape", ShapeCommand.Summary, ShapeCommand.Create),
        new("deliver", DeliverCommand.Summary, DeliverCommand.Create),
        new("render", RenderCommand.Summary, RenderCommand.Create),
        new("verify", VerifyCommand.Summary, VerifyCommand.Create),
        new("salvage", SalvageCommand.Summary, SalvageCommand.Create),
        new("completion", CompletionCommand.Summary, CompletionCommand.Create),
    ];

    /// <summary>The whole tree, every command with all its options.</summary>
    public static RootCommand Create(Screen screen) => Create(_ => true, screen);

    /// <summary>What a command line needs of the tree: one command whole, of the others the name and what they do. So the start does not grow with their number.</summary>
    internal static RootCommand CreateFor(string[] args, Screen screen)
    {
        // What a shell asks to complete, and what a file of arguments holds, is not known yet.
        if (args.Any(a => a.StartsWith('[') || a.StartsWith('@')))
            return Create(screen);
        var asked = Array.Find(args, a => !a.StartsWith('-'));
        return Create(entry => string.Equals(entry.Name, asked, StringComparison.Ordinal), screen);
    }

    private static RootCommand Create(Predicate<CommandEntry> isWanted, Screen screen)
    {
        var root = new RootCommand("Athwart turns raw mid-side recordings into named, documented, mono-safe stereo effects, and keeps the raw pair beside each.");
        foreach (var entry in Entries)
            root.Add(isWanted(entry) ? entry.Create(screen) : new Command(entry.Name, entry.Summary));
        var help = root.Options.OfType<HelpOption>().Single();
        help.Action = new HelpWithExamples((HelpAction)help.Action!);
        return root;
    }

    // The parser takes a mistyped option for a file of that name wherever a command takes files.
    private static IEnumerable<string> UnknownOptions(ParseResult parsed)
    {
        if (parsed.Action is HelpWithExamples || parsed.Tokens.Any(t => t.Type == TokenType.DoubleDash))
            return [];
        return parsed.CommandResult.Children.OfType<ArgumentResult>()
            .SelectMany(a => a.Tokens)
            .Select(t => t.Value)
            .Where(v => v.Length > 1 && v[0] == '-');
    }

    private static int Misused(ParseResult parsed, List<string> unknown, Screen screen)
    {
        foreach (var option in unknown)
            screen.Error($"There is no option '{option}' here. A file of that name is written './{option}'.");
        // What else is wrong may only follow from the word that was mistyped.
        foreach (var error in unknown.Count > 0 ? [] : parsed.Errors)
            screen.Error(error.Message);
        var command = parsed.CommandResult.Command;
        screen.Error(command is RootCommand ? "Try 'athwart --help'." : $"Try 'athwart {Words(command)} --help'.");
        return ExitCode.WrongUse;
    }

    // A command of a command is called by both names.
    private static string Words(Command command) =>
        command.Parents.OfType<Command>().FirstOrDefault() is { } parent and not RootCommand ? $"{Words(parent)} {command.Name}" : command.Name;
}
