using System.CommandLine.Parsing;

namespace Athwart.Cli.Tests;

/// <summary>Every command, whichever there are, explains itself. The commands are asked of the program, so a new one is covered.</summary>
public sealed class HelpTests
{
    public static TheoryData<string> Names { get; } = [.. CommandTree.Create(CommandLine.Nowhere()).Subcommands.Select(c => c.Name)];

    [Fact]
    public void TheFixedWords_AreAllThere()
    {
        string[] words = ["demo", "kit", "rig", "take-in", "check", "decode", "cut", "deliver", "render", "verify", "salvage"];
        Assert.Empty(words.Except(Names.Select(n => n.Data), StringComparer.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Help_ExitsWith0_NamesEveryOption_AndEndsWithAnExample(string name)
    {
        var command = Command(name);
        var help = CommandLine.Run(name, "--help");
        Assert.Equal(ExitCode.Done, help.Code);
        Assert.Empty(help.Error);
        Assert.Contains(command.Description!.Split(' ')[0], help.Output, StringComparison.Ordinal);
        Assert.All(command.Options, o => Assert.Contains(o.Name, help.Output, StringComparison.Ordinal));
        Assert.All(command.Arguments, a => Assert.Contains(a.Name, help.Output, StringComparison.Ordinal));
        Assert.All(command.Options, o => Assert.False(string.IsNullOrWhiteSpace(o.Description), o.Name + " says nothing"));
        Assert.EndsWith("  " + command.Examples[^1], help.Output.TrimEnd(), StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void EveryExample_IsACommandLineThatParses(string name)
    {
        foreach (var example in Command(name).Examples)
        {
            var words = CommandLineParser.SplitCommandLine(example.Split(" > ")[0]).ToArray();
            Assert.Equal("athwart", words[0]);
            Assert.Empty(CommandTree.Create(CommandLine.Nowhere()).Parse(words[1..]).Errors.Select(e => example + ": " + e.Message));
        }
    }

    [Fact]
    public void TheProgramsOwnHelp_NamesEveryCommand()
    {
        var help = CommandLine.Run("--help");
        Assert.Equal(ExitCode.Done, help.Code);
        Assert.All(Names, n => Assert.Contains("  " + n.Data, help.Output, StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void AnUnknownOption_IsNamed_AndExitsWith2(string name)
    {
        var result = CommandLine.Run(name, "--no-such-option");
        Assert.Equal(ExitCode.WrongUse, result.Code);
        Assert.Contains("--no-such-option", result.Error, StringComparison.Ordinal);
        Assert.Contains($"Try 'athwart {name} --help'.", result.Error, StringComparison.Ordinal);
        Assert.Empty(result.Output);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void ACommandBeforeItIsBuilt_SaysWhatTheBuiltOneSays(string name)
    {
        var entry = CommandTree.Entries.Single(e => string.Equals(e.Name, name, StringComparison.Ordinal));
        Assert.Equal((Command(name).Name, Command(name).Description), (entry.Name, entry.Summary));
    }

    [Fact]
    public void OnlyTheCommandAskedFor_IsBuilt()
    {
        var tree = CommandTree.CreateFor(["check", "render", "--json"], CommandLine.Nowhere());
        Assert.Equal(["check"], tree.Subcommands.Where(c => c.Options.Count + c.Arguments.Count > 0).Select(c => c.Name));
        Assert.DoesNotContain(CommandTree.CreateFor(["--help"], CommandLine.Nowhere()).Subcommands, c => c.Options.Count > 0);
    }

    [Fact]
    public void AnUnknownCommand_IsNamed_AndExitsWith2()
    {
        var result = CommandLine.Run("dekode");
        Assert.Equal(ExitCode.WrongUse, result.Code);
        Assert.Contains("dekode", result.Error, StringComparison.Ordinal);
    }

    private static ExampledCommand Command(string name) =>
        Assert.IsType<ExampledCommand>(CommandTree.Create(CommandLine.Nowhere()).Subcommands.Single(c => string.Equals(c.Name, name, StringComparison.Ordinal)));
}
