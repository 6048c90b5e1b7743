using Spectre.Console;

namespace Athwart.Cli;

/// <summary>Where a command speaks: results to standard output, progress and errors to standard error.</summary>
internal sealed class Screen
{
    // Made when first used: looking a terminal over costs more than many a command.
    private readonly Lazy<IAnsiConsole> _console;
    private readonly Lazy<IAnsiConsole> _errorConsole;

    /// <summary>A screen over two writers, such as those of a test.</summary>
    public Screen(TextWriter output, TextWriter error, bool interactive)
    {
        Output = output;
        ErrorOutput = error;
        _console = new(() => Create(output, interactive));
        _errorConsole = new(() => Create(error, interactive));
        Interactive = interactive;
    }

    /// <summary>Standard output as it is, for JSON and other text that programs read.</summary>
    public TextWriter Output { get; }

    /// <summary>Standard error as it is.</summary>
    public TextWriter ErrorOutput { get; }

    /// <summary>Standard output for people: tables.</summary>
    public IAnsiConsole Console => _console.Value;

    /// <summary>Standard error for people: progress.</summary>
    public IAnsiConsole ErrorConsole => _errorConsole.Value;

    /// <summary>Whether a person is watching standard error.</summary>
    public bool Interactive { get; }

    /// <summary>The screen of this process.</summary>
    public static Screen ForProcess() => new(System.Console.Out, System.Console.Error, !System.Console.IsErrorRedirected);

    /// <summary>A line for people.</summary>
    public void Line(string text = "") => Output.WriteLine(text);

    /// <summary>An error or a warning for people.</summary>
    public void Error(string text) => ErrorOutput.WriteLine(text);

    private static IAnsiConsole Create(TextWriter writer, bool interactive)
    {
        var console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Out = new AnsiConsoleOutput(writer),
            Ansi = interactive ? AnsiSupport.Detect : AnsiSupport.No,
            Interactive = interactive ? InteractionSupport.Detect : InteractionSupport.No,
        });
        // A pipe has no width; eighty columns would cut paths in two.
        if (!interactive)
            console.Profile.Width = 160;
        return console;
    }
}
