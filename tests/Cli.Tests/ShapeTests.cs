using Athwart.Tests.Shared;

namespace Athwart.Cli.Tests;

/// <summary><c>shape</c>: treatments listed, shown, kept, tried, measured, undone.</summary>
public sealed class ShapeTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public ShapeTests() => RawPairs.Write(_folder.File("gate.wav"));

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void List_And_Show_SayWhatTheProgramBrings()
    {
        Assert.Contains("Hard effect", CommandLine.Run("shape", "list").Output, StringComparison.Ordinal);
        var shown = CommandLine.Run("shape", "show", "hard effect").Output;
        Assert.Contains("mono-guard: lowest correlation 0.2", shown, StringComparison.Ordinal);
        Assert.Contains("side level of −3 dB", shown, StringComparison.Ordinal);
        Assert.Equal(ExitCode.WrongUse, CommandLine.Run("shape", "show", "no such").Code);
    }

    [Fact]
    public void AnExportedTreatment_IsTriedAndDecoded()
    {
        Assert.Equal(ExitCode.Done, CommandLine.Run("shape", "show", "Machine", "--to", _folder.File("mine.json")).Code);
        var tried = CommandLine.Run("shape", "try", _folder.File("gate.wav"), "--treatment", _folder.File("mine.json"), "--out", _folder.File("try.wav"));
        Assert.True(tried.Code == ExitCode.Done, tried.Error);
        Assert.True(File.Exists(_folder.File("try.wav")));
        Assert.Equal(ExitCode.Refused, CommandLine.Run("shape", "try", _folder.File("gate.wav"), "--treatment", "Machine", "--out", _folder.File("try.wav")).Code);
        Assert.Equal(ExitCode.Done, CommandLine.Run("decode", _folder.File("gate.wav"), _folder.File("out.wav"), "--treatment", _folder.File("mine.json"), "--word", "f32").Code);
    }

    [Fact]
    public void FilesThatAreThere_AreReplacedOnlyWhenAsked()
    {
        var (mine, pictures) = (_folder.File("mine.json"), _folder.File("pictures"));
        File.WriteAllText(mine, "my own work");
        var refused = CommandLine.Run("shape", "show", "Machine", "--to", mine);
        Assert.Equal(ExitCode.Refused, refused.Code);
        Assert.Contains("--overwrite", refused.Error, StringComparison.Ordinal);
        Assert.Equal("my own work", File.ReadAllText(mine));
        Assert.Equal(ExitCode.Done, CommandLine.Run("shape", "show", "Machine", "--to", mine, "--overwrite").Code);
        string[] measure = ["shape", "measure", _folder.File("gate.wav"), "--treatment", "Machine", "--pictures", pictures];
        Assert.Equal([ExitCode.Done, ExitCode.Refused, ExitCode.Done], [CommandLine.Run(measure).Code, CommandLine.Run(measure).Code, CommandLine.Run([.. measure, "--overwrite"]).Code]);
    }

    [Fact]
    public void Measure_HasALineForEachStep_AndPicturesWhereAsked()
    {
        var measured = CommandLine.Run("shape", "measure", _folder.File("gate.wav"), "--treatment", "Machine", "--pictures", _folder.File("pictures"));
        Assert.True(measured.Code == ExitCode.Done, measured.Error);
        Assert.Contains("as recorded", measured.Output, StringComparison.Ordinal);
        Assert.Contains("high-shelf: side", measured.Output, StringComparison.Ordinal);
        // The guard follows the sound and has no response.
        Assert.Equal(3, Directory.GetFiles(_folder.File("pictures"), "*.svg").Length);
    }

    [Fact]
    public void AnUnknownStepInAFile_IsNamedWithItsPlace()
    {
        File.WriteAllText(_folder.File("odd.json"), """{"kind":"athwart-treatment","version":1,"name":"odd","steps":[{"step":"polish"}]}""");
        var result = CommandLine.Run("shape", "show", _folder.File("odd.json"));
        Assert.Equal(ExitCode.WrongUse, result.Code);
        Assert.Contains("steps[0]", result.Error, StringComparison.Ordinal);
        Assert.Contains("polish", result.Error, StringComparison.Ordinal);
    }
}
