using Athwart.Tests.Shared;

namespace Athwart.House.Tests;

/// <summary>The script that decides whether the tests were green, fed with what the runner prints.</summary>
public sealed class CountTestsTests
{
    private static string[] Expected { get; } = ["Athwart.Quantities.Tests.dll", "Athwart.Signals.Tests.dll"];

    [Theory]
    [InlineData("all-passed", 0, "1244 passed, 0 failed, 2 skipped")]
    [InlineData("one-failed", 1, "48 passed, 1 failed, 0 skipped")]
    [InlineData("one-silent", 1, "41 passed, 0 failed, 0 skipped")]
    [InlineData("all-skipped", 1, "41 passed, 0 failed, 3 skipped")]
    [InlineData("crashed", 1, "44 passed, 0 failed, 0 skipped")]
    [InlineData("build-failed", 1, "0 passed, 0 failed, 0 skipped")]
    public void ALogOfTheRunner_IsSummedAndJudged(string fixture, int exitCode, string lastLine)
    {
        var result = Count(Fixture(fixture), Expected);

        Assert.Equal((exitCode, lastLine), (result.ExitCode, LastLine(result)));
    }

    [Theory]
    [InlineData("one-silent")]
    [InlineData("all-skipped")]
    public void AnAssemblyThatRanNoTest_IsNamed(string fixture) =>
        Assert.Contains("Athwart.Signals.Tests.dll ran no test", Count(Fixture(fixture), Expected).Output, StringComparison.Ordinal);

    [Fact]
    public void AnAssemblyThatIsNotInTheLog_FailsAGreenRun()
    {
        var result = Count(Fixture("all-passed"), [.. Expected, "Athwart.Jobs.Tests.dll"]);

        Assert.Equal(1, result.ExitCode);
        Assert.Contains("Athwart.Jobs.Tests.dll ran no test", result.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void AMissingLog_IsWrongUseAndStillEndsWithTheCountingLine()
    {
        var result = Count(Repository.PathOf("no-such.log"), Expected);

        Assert.Equal((2, "0 passed, 0 failed, 0 skipped"), (result.ExitCode, LastLine(result)));
    }

    private static string Fixture(string name) => Repository.PathOf("tests", "House.Tests", "Fixtures", name + ".txt");

    private static ProgramOutput Count(string log, string[] assemblies) =>
        ReferenceProgram.Run(ReferenceProgram.Require("bash"), [Repository.PathOf(".ci", "count-tests"), log, .. assemblies]);

    private static string LastLine(ProgramOutput output) => output.Output.TrimEnd('\n').Split('\n')[^1];
}
