using System.CommandLine;
using System.CommandLine.Parsing;
using System.Text.Json;
using Athwart.Tests.Shared;

namespace Athwart.Cli.Tests;

/// <summary>The commands of the kit as a recordist types them.</summary>
public sealed class KitTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public static TheoryData<string> Below { get; } = [.. All(CommandTree.Create(CommandLine.Nowhere()).Subcommands.Single(c => c.Name == "kit")).Select(Words)];

    [Fact]
    public void TheDemoKit_IsListedWithinAHundredColumns_WithWhatIsNotKnown()
    {
        Assert.Equal(ExitCode.Done, Run("import", "--demo").Code);
        var list = Run("list");
        Assert.Equal(ExitCode.Done, list.Code);
        Assert.All(list.Output.Split('\n'), l => Assert.True(l.TrimEnd().Length <= 100, l));
        Assert.Contains("short shotgun A", list.Output, StringComparison.Ordinal);
        Assert.Matches("reporter's cardioid +cardioid +1.8 +– +– +70 to 14k", list.Output);
        Assert.Contains("noise not known: not ranked by noise", list.Output, StringComparison.Ordinal);
        Assert.Contains("Owned: 1110 EUR. Considered:", list.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void ListAndExport_AsJson_AreOneDocumentAndNothingElse()
    {
        Run("import", "--demo");
        using var list = JsonDocument.Parse(Run("list", "--json").Output);
        Assert.Equal(16, list.RootElement.GetProperty("microphones").GetArrayLength());
        Assert.NotEqual(0, list.RootElement.GetProperty("gaps").GetArrayLength());
        Assert.Equal("EUR", list.RootElement.GetProperty("owned")[0].GetProperty("currency").GetString());
        using var export = JsonDocument.Parse(Run("export", "--json").Output);
        Assert.Equal("athwart-kit", export.RootElement.GetProperty("format").GetString());
    }

    [Fact]
    public void ImportedTwice_ExitsWith5_AndWithReplaceIsDone()
    {
        Run("import", "--demo");
        var again = Run("import", "--demo");
        Assert.Equal(ExitCode.Refused, again.Code);
        Assert.Contains("--replace", again.Error, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, Run("import", "--demo", "--replace").Code);
    }

    [Fact]
    public void AFileWithFaults_ExitsWith2_NamesEachWithRowAndColumn_AndKeepsNothing()
    {
        File.WriteAllText(_folder.File("mics.csv"), "name,pattern,noise dBA,length cm\nC1,omni,75,10\nC2,heart,16,10\n");
        var result = Run("import", _folder.File("mics.csv"));
        Assert.Equal(ExitCode.WrongUse, result.Code);
        Assert.Contains("mics.csv, row 1, column 'length cm'", result.Error, StringComparison.Ordinal);
        Assert.Contains("mics.csv, row 2, column 'noise dBA' (C1)", result.Error, StringComparison.Ordinal);
        Assert.Contains("mics.csv, row 3, column 'pattern' (C2)", result.Error, StringComparison.Ordinal);
        Assert.Contains("Nothing was kept: 3 faults.", result.Error, StringComparison.Ordinal);
        Assert.Empty(result.Output);
        using var json = JsonDocument.Parse(Run("import", _folder.File("mics.csv"), "--json").Output);
        Assert.False(json.RootElement.GetProperty("done").GetBoolean());
        Assert.Equal(3, json.RootElement.GetProperty("faults").GetArrayLength());
    }

    [Fact]
    public void ThingsAddedOneByOne_AreInTheList()
    {
        Assert.Equal(ExitCode.Done, Run("add", "microphone", "M", "--pattern", "omni", "--label", "omni", "--noise", "9", "--sensitivity", "20", "--price", "740 EUR", "--count", "2", "--owned").Code);
        Assert.Equal(ExitCode.Done, Run("add", "setting", "M", "--label", "eight", "--pattern", "figure-8").Code);
        Assert.Equal(ExitCode.Done, Run("add", "recorder", "R", "--inputs", "2", "--input-noise", "-119", "--decodes-for-monitoring", "false", "--price", "30.50 GBP").Code);
        Assert.Equal(ExitCode.Done, Run("add", "protection", "cage", "--inner-length", "210").Code);
        var list = Run("list").Output;
        Assert.Matches("M +omni +20 +9 +– +– +– +740 EUR +2 owned", list);
        Assert.Contains("(figure-8)", list, StringComparison.Ordinal);
        Assert.Matches("R +2 +-119 ", list);
        Assert.Contains("Owned: 1480 EUR. Considered: 30.5 GBP. Currencies are never added", list, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Refused, Run("add", "microphone", "m", "--pattern", "omni").Code);
        Assert.Equal(ExitCode.Done, Run("remove", "M", "cage").Code);
        Assert.DoesNotContain("cage", Run("list").Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0.1 to 200 mV/Pa", "add", "microphone", "M", "--pattern", "omni", "--sensitivity", "-3")]
    [InlineData("is no number", "add", "microphone", "M", "--pattern", "omni", "--noise", "14,5")]
    [InlineData("is no pattern", "add", "microphone", "M", "--pattern", "heart")]
    [InlineData("whole number", "add", "microphone", "M", "--pattern", "omni", "--count", "0.5")]
    [InlineData("is no price", "add", "microphone", "M", "--pattern", "omni", "--price", "dear")]
    [InlineData("has no currency", "add", "microphone", "M", "--pattern", "omni", "--price", "30")]
    [InlineData("There is no file", "import", "nowhere.csv")]
    [InlineData("Name files", "import")]
    [InlineData("There is no library", "list")]
    public void WrongUse_ExitsWith2_AndSaysWhatToWrite(string said, params string[] args)
    {
        var result = Run(args);
        Assert.Equal(ExitCode.WrongUse, result.Code);
        Assert.Contains(said, result.Error, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Below))]
    public void EveryCommandBelow_ExplainsItselfWithExamplesThatParse(string words)
    {
        var help = CommandLine.Run([.. words.Split(' '), "--help"]);
        Assert.Equal(ExitCode.Done, help.Code);
        var command = (ExampledCommand)CommandTree.Create(CommandLine.Nowhere()).Parse(words.Split(' ')).CommandResult.Command;
        Assert.All(command.Options, o => Assert.False(string.IsNullOrWhiteSpace(o.Description), o.Name));
        Assert.NotEmpty(command.Examples);
        foreach (var example in command.Examples)
            Assert.Empty(CommandTree.Create(CommandLine.Nowhere()).Parse(CommandLineParser.SplitCommandLine(example).Skip(1).ToArray()).Errors.Select(e => example + ": " + e.Message));
        Assert.Contains($"Try 'athwart {words} --help'.", CommandLine.Run([.. words.Split(' '), "--no-such-option"]).Error, StringComparison.Ordinal);
    }

    [Fact]
    public void AnEmptyKit_SaysWhatToDoNext()
    {
        Run("add", "recorder", "R");
        Run("remove", "R");
        Assert.Contains("kit import --demo", Run("list").Output, StringComparison.Ordinal);
    }

    public void Dispose() => _folder.Dispose();

    private static IEnumerable<Command> All(Command command) => command.Subcommands.SelectMany(c => All(c).Prepend(c));

    private static string Words(Command command) => command.Parents.OfType<Command>().First() is RootCommand ? command.Name : Words(command.Parents.OfType<Command>().First()) + " " + command.Name;

    private CommandResult Run(params string[] args) => CommandLine.Run(["kit", .. args, "--library", _folder.File("lib")]);
}
