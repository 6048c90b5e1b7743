namespace Athwart.Cli.Tests;

public sealed class CompletionTests
{
    [Theory]
    [InlineData("bash", "complete -o default -F _athwart athwart")]
    [InlineData("zsh", "#compdef athwart")]
    [InlineData("fish", "complete -c athwart")]
    public void AScript_IsPrinted(string shell, string expected)
    {
        var result = CommandLine.Run("completion", shell);
        Assert.Equal(ExitCode.Done, result.Code);
        Assert.Contains(expected, result.Output, StringComparison.Ordinal);
        Assert.Contains("[suggest:", result.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void AnotherShell_IsRefusedWithTheOnesThereAre()
    {
        var result = CommandLine.Run("completion", "tcsh");
        Assert.Equal(ExitCode.WrongUse, result.Code);
        Assert.Contains("fish", result.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("athwart de", "decode", "deliver")]
    [InlineData("athwart decode --side-", "--side-level", "--side-level")]
    [InlineData("athwart check --j", "--json", "--json")]
    public void TheShellsQuestion_IsAnswered_ThoughTheLineIsNotFinished(string line, string first, string second)
    {
        var result = CommandLine.Run($"[suggest:{line.Length}]", line);
        Assert.Equal(ExitCode.Done, result.Code);
        var words = result.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        Assert.Contains(first, words, StringComparer.Ordinal);
        Assert.Contains(second, words, StringComparer.Ordinal);
    }
}
