namespace Athwart.Cli.Tests;

/// <summary>Runs a command line as the program does, over writers instead of a terminal.</summary>
internal static class CommandLine
{
    public static CommandResult Run(params string[] args)
    {
        using StringWriter output = new(), error = new();
        var code = CommandTree.RunAsync(args, new Screen(output, error, interactive: false)).GetAwaiter().GetResult();
        return new(code, output.ToString(), error.ToString());
    }

    /// <summary>A screen that nobody looks at.</summary>
    public static Screen Nowhere() => new(TextWriter.Null, TextWriter.Null, interactive: false);
}

/// <summary>What a command said and how it ended.</summary>
internal sealed record CommandResult(int Code, string Output, string Error);
