using System.Text.Json;
using Athwart.Tests.Shared;

namespace Athwart.Cli.Tests;

public sealed class RigTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public void APatternAndASideLevel_AreEnough_WithoutKitOrLibrary()
    {
        var result = CommandLine.Run("rig", "show", "--mid", "cardioid", "--side-level", "-3");
        Assert.Equal((ExitCode.Done, ""), (result.Code, result.Error));
        Assert.Contains("105.0°", result.Output, StringComparison.Ordinal);
        Assert.Contains("114.9°", result.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("show", "--mid", "cardioid", "--json")]
    [InlineData("show", "--demo-kit", "--rig", "short shotgun B + small figure-8 B @ -6", "--recorder", "pocket recorder", "--quietest", "45", "--loudest", "95", "--json")]
    [InlineData("compare", "cardioid @ -3", "omni @ 0", "--json")]
    [InlineData("choose", "--demo-kit", "--coverage", "90", "--json")]
    public void WithJson_StandardOutputIsOneDocument(params string[] arguments)
    {
        var result = CommandLine.Run(["rig", .. arguments]);
        Assert.Equal((ExitCode.Done, ""), (result.Code, result.Error));
        JsonDocument.Parse(result.Output).Dispose();
    }

    [Fact]
    public void ABoatWith900ToSpend_IsAnsweredWithRanksReasonsAndTheNextCommand()
    {
        var result = CommandLine.Run("rig", "choose", "--demo-kit", "--budget", "900 EUR", "--path", "40", "--distance", "12", "--quietest", "45", "--loudest", "95");
        Assert.Equal(ExitCode.Done, result.Code);
        Assert.Contains("118° as seen from there", result.Output, StringComparison.Ordinal);
        Assert.Contains("Rejected: ", result.Output, StringComparison.Ordinal);
        Assert.Contains("Next: athwart rig show --rig", result.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void WhenNothingDoesAllThatIsAsked_TheExitCodeIs1_AndEachFailureIsSaid()
    {
        var result = CommandLine.Run("rig", "choose", "--demo-kit", "--coverage", "330");
        Assert.Equal(ExitCode.FaultFound, result.Code);
        Assert.Contains("from the wanted 330°", result.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--mid", "show")]
    [InlineData("'quux'", "show", "--mid", "quux")]
    [InlineData("more than one way", "show", "--mid", "cardioid", "--side-level", "-3", "--coverage", "90")]
    [InlineData("--distance", "show", "--mid", "cardioid", "--width", "8")]
    [InlineData("stays or passes", "show", "--mid", "cardioid", "--width", "8", "--path", "9", "--distance", "3")]
    [InlineData("said twice", "show", "--mid", "cardioid", "--demo-kit", "--library", "x")]
    [InlineData("'dragons'", "show", "--mid", "cardioid", "--hazard", "dragons")]
    [InlineData("'12,5'", "show", "--mid", "cardioid", "--distance", "12,5")]
    [InlineData("'900'", "choose", "--demo-kit", "--budget", "900")]
    [InlineData("compare", "compare", "cardioid")]
    [InlineData("--speed says nothing without", "show", "--mid", "cardioid", "--speed", "3", "--width", "8", "--distance", "3")]
    [InlineData("--from-right says nothing without", "choose", "--demo-kit", "--coverage", "90", "--from-right")]
    [InlineData("--source-slope says nothing without", "show", "--mid", "cardioid", "--source-slope", "-6")]
    [InlineData("Give --headphones or --loudest too", "show", "--mid", "cardioid", "--hours", "4")]
    public void WhatMeansNothing_ExitsWith2_AndIsNamed(string named, params string[] arguments)
    {
        var result = CommandLine.Run(["rig", .. arguments]);
        Assert.Equal(ExitCode.WrongUse, result.Code);
        Assert.Contains(named, result.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void PagesPicturesAndSheets_AreWritten_AndNeverOverAnotherUnlessAsked()
    {
        string[] show = ["rig", "show", "--mid", "cardioid", "--page", _folder.File("rig.html"), "--pictures", _folder.File("pictures")];
        string[] sheet = ["rig", "sheet", _folder.File("sheet.html"), "--mid", "cardioid", "--title", "Gates"];
        foreach (var command in (string[][])[show, sheet])
        {
            Assert.Equal(ExitCode.Done, CommandLine.Run(command).Code);
            Assert.Equal(ExitCode.Refused, CommandLine.Run(command).Code);
            Assert.Equal(ExitCode.Done, CommandLine.Run([.. command, "--overwrite"]).Code);
        }

        Assert.Equal(6, Directory.GetFiles(_folder.File("pictures"), "*.svg").Length);
        Assert.Contains("Gates", File.ReadAllText(_folder.File("sheet.html")), StringComparison.Ordinal);
    }

    [Fact]
    public void TheKitOfALibrary_IsLookedIn()
    {
        var library = _folder.File("library");
        Assert.Equal(ExitCode.Done, CommandLine.Run("kit", "import", "--demo", "--library", library).Code);
        var result = CommandLine.Run("rig", "show", "--library", library, "--mid", "short shotgun A", "--side", "ribbon figure-8", "--side-level", "0");
        Assert.Equal((ExitCode.Done, ""), (result.Code, result.Error));
        Assert.Contains("1210 EUR", result.Output, StringComparison.Ordinal);
    }

    public void Dispose() => _folder.Dispose();
}
