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
        var parsed = Create(screen).Parse(args);
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
    public static RootCommand Create(Screen screen)
    {
        var root = new RootCommand("Athwart turns raw mid-side recordings into named, documented, mono-safe stereo effects, and keeps the raw pair beside each.")
        {
            DemoCommand.Create(screen),
            KitCommand.Create(screen),
            RigCommand.Create(screen),
            TakeInCommand.Create(screen),
            TakesCommand.Create(screen),
            LineUpCommand.Create(screen),
            CheckCommand.Create(screen),
            ExplainCommand.Create(screen),
            RolesCommand.Create(screen),
            DecodeCommand.Create(screen),
            CutCommand.Create(screen),
            ShapeCommand.Create(screen),
            DeliverCommand.Create(screen),
            RenderCommand.Create(screen),
            VerifyCommand.Create(screen),
            SalvageCommand.Create(screen),
            CompletionCommand.Create(screen),
        };
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
