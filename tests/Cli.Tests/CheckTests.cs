using System.Text.Json;
using Athwart.Tests.Shared;

namespace Athwart.Cli.Tests;

public sealed class CheckTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public void Json_OnALooseFile_HasTheDocumentedFields_AndNeedsNoLibrary()
    {
        var raw = RawPairs.Write(_folder.File("gate.wav"));
        var result = CommandLine.Run("check", raw, "--json", "--side-level", "-3");
        Assert.Equal((ExitCode.Done, ""), (result.Code, result.Error));
        using var json = JsonDocument.Parse(result.Output);
        Assert.Equal(1, json.RootElement.GetProperty("athwartCheck").GetInt32());
        Assert.Equal(-3, json.RootElement.GetProperty("sideLevelDecibels").GetDouble());
        Assert.Equal(0, json.RootElement.GetProperty("refused").GetArrayLength());
        var take = Assert.Single(json.RootElement.GetProperty("takes").EnumerateArray());
        Assert.Equal("gate", take.GetProperty("name").GetString());
        Assert.Equal((2, 48000, 24, 24000L), (take.GetProperty("channels").GetInt32(), take.GetProperty("sampleRateHertz").GetInt32(), take.GetProperty("bits").GetInt32(), take.GetProperty("frames").GetInt64()));

        // The mid is a triangle of a quarter of full scale: −12.04 dBFS.
        Assert.Equal(-12.04, take.GetProperty("mid").GetProperty("samplePeakDbfs").GetDouble(), 0.01);
        Assert.Equal(-18.06, take.GetProperty("side").GetProperty("samplePeakDbfs").GetDouble(), 0.01);
        foreach (var field in new[] { "files", "join", "joinEvidence", "isFloat", "seconds", "roles", "left", "right", "sideMinusMidDecibels", "midSideCorrelation", "loudness", "findings" })
            Assert.True(take.TryGetProperty(field, out _), $"the field '{field}' is missing");
    }

    [Fact]
    public void AFolder_IsSearchedWithAllBelow_AndOneBadFileExitsWith1()
    {
        RawPairs.Write(Path.Combine(_folder.Path, "card", "day", "gate.wav"));
        RawPairs.Write(Path.Combine(_folder.Path, "card", "boat.wav"));
        Assert.Equal(ExitCode.Done, CommandLine.Run("check", _folder.File("card")).Code);

        File.WriteAllText(Path.Combine(_folder.Path, "card", "torn.wav"), "not a recording");
        var result = CommandLine.Run("check", _folder.File("card"), "--json");
        Assert.Equal(ExitCode.FaultFound, result.Code);
        using var json = JsonDocument.Parse(result.Output);
        Assert.Equal(["boat", "gate"], json.RootElement.GetProperty("takes").EnumerateArray().Select(t => t.GetProperty("name").GetString()!), StringComparer.Ordinal);
        var refused = Assert.Single(json.RootElement.GetProperty("refused").EnumerateArray());
        Assert.Equal("not-a-recording", refused.GetProperty("kind").GetString());
        Assert.EndsWith("torn.wav", refused.GetProperty("file").GetString(), StringComparison.Ordinal);
        Assert.NotEmpty(refused.GetProperty("remedy").GetString()!);
    }

    [Fact]
    public void TheTable_NamesTakeVerdictAndRoles()
    {
        var result = CommandLine.Run("check", RawPairs.Write(_folder.File("gate.wav")));
        Assert.Contains("gate", result.Output, StringComparison.Ordinal);
        Assert.Contains("roles:", result.Output, StringComparison.Ordinal);
        Assert.Contains("−12.0", result.Output.Replace('-', '−'), StringComparison.Ordinal);
    }

    [Fact]
    public void NothingToCheck_ExitsWith2()
    {
        Assert.Equal(ExitCode.WrongUse, CommandLine.Run("check").Code);
        Assert.Equal(ExitCode.WrongUse, CommandLine.Run("check", _folder.File("nowhere")).Code);
        Assert.Equal(ExitCode.WrongUse, CommandLine.Run("check", _folder.Path).Code);
        Assert.Contains("--session", CommandLine.Run("check", "--library", _folder.Path).Error, StringComparison.Ordinal);
    }

    public void Dispose() => _folder.Dispose();
}
