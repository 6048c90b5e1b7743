using System.Globalization;
using System.Text;

namespace Athwart.House.Tests;

/// <summary>One command of a page: its words without the program's name, and the exit code the page promises.</summary>
internal sealed record DocExample(string File, int Line, string CommandLine, IReadOnlyList<string> Arguments, int ExitCode)
{
    public override string ToString() => $"{File}:{Line}: {CommandLine}";
}

/// <summary>
/// Collects the examples of the pages: blocks fenced as <c>console</c> whose first line starts with '$ athwart'. Every line
/// that starts with '$ athwart' is a command; a backslash at its end continues it; other lines show output and are not
/// compared. '<c>console exit=5</c>' says what the block's last command ends with; all others end with 0.
/// </summary>
internal static class DocExamples
{
    internal const string Prompt = "$ athwart";

    public static IReadOnlyList<DocExample> In(string file, string text) =>
        [.. Markdown.Blocks(file, text).Where(IsExample).SelectMany(Commands)];

    private static bool IsExample(FencedBlock block) =>
        block.Info.Split(' ')[0] == "console" && block.Lines.Count > 0 && block.Lines[0].StartsWith(Prompt, StringComparison.Ordinal);

    private static List<DocExample> Commands(FencedBlock block)
    {
        var examples = new List<DocExample>();
        for (var i = 0; i < block.Lines.Count; i++)
        {
            if (!block.Lines[i].StartsWith(Prompt, StringComparison.Ordinal))
                continue;
            var first = i;
            var command = new StringBuilder(block.Lines[i][2..]);
            while (command[^1] == '\\' && i + 1 < block.Lines.Count)
                command.Remove(command.Length - 1, 1).Append(block.Lines[++i].Trim());
            var words = Split(command.ToString());
            examples.Add(new(block.File, block.Line + 1 + first, command.ToString(), words[1..], 0));
        }

        examples[^1] = examples[^1] with { ExitCode = PromisedExitCode(block) };
        return examples;
    }

    private static int PromisedExitCode(FencedBlock block)
    {
        foreach (var word in block.Info.Split(' ').Skip(1))
        {
            if (word.StartsWith("exit=", StringComparison.Ordinal))
                return int.Parse(word.AsSpan(5), CultureInfo.InvariantCulture);
        }

        return 0;
    }

    /// <summary>Splits as a shell would where only blanks and quotes mean something.</summary>
    private static List<string> Split(string command)
    {
        var words = new List<string>();
        var word = new StringBuilder();
        var (quote, started) = ('\0', false);
        foreach (var character in command)
        {
            if (quote == '\0' && character is ('"' or '\''))
                (quote, started) = (character, true);
            else if (character == quote && quote != '\0')
                quote = '\0';
            else if (quote == '\0' && character == ' ')
                Close();
            else
                (_, started) = (word.Append(character), true);
        }

        Close();
        return quote == '\0' ? words : throw new FormatException($"a quote is never closed: {command}");

        void Close()
        {
            if (started)
                words.Add(word.ToString());
            word.Clear();
            started = false;
        }
    }
}
