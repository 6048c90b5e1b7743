using Athwart.Tests.Shared;

namespace Athwart.Cli.Tests;

public sealed class DecodeTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private string Raw => _folder.File("gate.wav");

    private string Stereo => _folder.File("gate stereo.wav");

    [Fact]
    public void OneFile_AtMinus3Decibels_IsMidPlusAndMinusTheSide_AndFoldsToTheMidToTheBit()
    {
        RawPairs.Write(Raw);
        var result = CommandLine.Run("decode", Raw, Stereo, "--side-level", "-3");
        Assert.Equal((ExitCode.Done, ""), (result.Code, result.Error));
        Assert.Contains(Stereo, result.Output, StringComparison.Ordinal);
        var (raw, stereo) = (RawPairs.Steps(Raw), RawPairs.Steps(Stereo));
        var gain = Math.Pow(10, -3 / 20.0);
        for (var n = 0; n < raw[0].Length; n++)
        {
            Assert.Equal(2 * raw[0][n], stereo[0][n] + stereo[1][n]);

            // Half a step of rounding and one step of triangular dither.
            Assert.InRange(((stereo[0][n] - stereo[1][n]) / 2) - (gain * raw[1][n]), -1.5, 1.5);
        }
    }

    [Fact]
    public void WithoutSide_LeftAndRightAreTheMid()
    {
        RawPairs.Write(Raw);
        Assert.Equal(ExitCode.Done, CommandLine.Run("decode", Raw, Stereo, "--side-level", "-inf").Code);
        var (raw, stereo) = (RawPairs.Steps(Raw), RawPairs.Steps(Stereo));
        Assert.Equal(raw[0], stereo[0]);
        Assert.Equal(raw[0], stereo[1]);
    }

    [Fact]
    public void SwappedRolesAndInvertedSide_CanBeSaid()
    {
        RawPairs.Write(Raw);
        Assert.Equal(ExitCode.Done, CommandLine.Run("decode", Raw, Stereo, "--mid", "2", "--side", "1", "--side-level", "-inf").Code);
        Assert.Equal(RawPairs.Steps(Raw)[1], RawPairs.Steps(Stereo)[0]);

        var (plain, inverted) = (_folder.File("plain.wav"), _folder.File("inverted.wav"));
        CommandLine.Run("decode", Raw, plain, "--side-level", "0");
        CommandLine.Run("decode", Raw, inverted, "--side-level", "0", "--invert-side");
        var (a, b) = (RawPairs.Steps(plain), RawPairs.Steps(inverted));
        Assert.All(Enumerable.Range(0, a[0].Length), n => Assert.InRange(a[0][n] - b[1][n], -3, 3));
        Assert.NotEqual(a[0], b[0]);
    }

    [Fact]
    public void ADecodeThatWouldClip_ExitsWith5_NamesTheTrimItNeeds_AndWritesNothing()
    {
        RawPairs.Write(Raw, peak: 0.8, sidePeak: 0.8);
        var refused = CommandLine.Run("decode", Raw, Stereo, "--side-level", "0");
        Assert.Equal(ExitCode.Refused, refused.Code);
        Assert.Matches("-[0-9]+[.][0-9]+ dB|−[0-9]+[.][0-9]+ dB", refused.Error);
        Assert.False(File.Exists(Stereo));
        Assert.Equal(ExitCode.Done, CommandLine.Run("decode", Raw, Stereo, "--side-level", "0", "--ceiling", "-1").Code);
    }

    [Fact]
    public void AnExistingFile_IsNotReplacedUnlessAsked()
    {
        RawPairs.Write(Raw);
        File.WriteAllText(Stereo, "mine");
        var refused = CommandLine.Run("decode", Raw, Stereo);
        Assert.Equal(ExitCode.Refused, refused.Code);
        Assert.Contains(Stereo, refused.Error, StringComparison.Ordinal);
        Assert.Equal("mine", File.ReadAllText(Stereo));
        Assert.Equal(ExitCode.Done, CommandLine.Run("decode", Raw, Stereo, "--overwrite").Code);
        Assert.Equal(24000, RawPairs.Steps(Stereo)[0].Length);
    }

    [Fact]
    public void AFileThatIsNoRecording_ExitsWith3_AndSaysWhereAndWhy()
    {
        File.WriteAllText(Raw, "a shopping list, not a recording at all");
        var result = CommandLine.Run("decode", Raw, Stereo);
        Assert.Equal(ExitCode.UnreadableRecording, result.Code);
        Assert.Contains(Raw, result.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(Stereo));
    }

    [Fact]
    public void AFolderThatIsNotThere_ExitsWith4()
    {
        RawPairs.Write(Raw);
        Assert.Equal(ExitCode.Storage, CommandLine.Run("decode", Raw, Path.Combine(_folder.Path, "nowhere", "out.wav")).Code);
    }

    [Theory]
    [InlineData("--side-level", "loud", "loud")]
    [InlineData("--word", "s12", "s12")]
    [InlineData("--threads", "0", "--threads")]
    [InlineData("--mid", "7", "7")]
    public void AValueThatMeansNothing_IsNamed_AndExitsWith2(string option, string value, string named)
    {
        RawPairs.Write(Raw);
        var result = CommandLine.Run("decode", Raw, Stereo, option, value);
        Assert.Equal(ExitCode.WrongUse, result.Code);
        Assert.Contains(named, result.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(Stereo));
    }

    [Fact]
    public void AMissingRecording_ExitsWith2_AndIsNamed()
    {
        var result = CommandLine.Run("decode", Raw, Stereo);
        Assert.Equal(ExitCode.WrongUse, result.Code);
        Assert.Contains(Raw, result.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void ARecipe_RendersTheSameFileAgain_AndGivesTheRawPairBack()
    {
        RawPairs.Write(Raw);
        Assert.Equal(ExitCode.Done, CommandLine.Run("decode", Raw, Stereo, "--side-level", "-3", "--recipe").Code);
        var recipe = Assert.Single(Directory.GetFiles(_folder.Path, "*.recipe.json"));
        var again = _folder.File("again.wav");
        var back = _folder.File("back.wav");
        Assert.Equal(ExitCode.Done, CommandLine.Run("render", recipe, "--to", again).Code);
        Assert.Equal(File.ReadAllBytes(Stereo), File.ReadAllBytes(again));
        Assert.Equal(ExitCode.Done, CommandLine.Run("render", recipe, "--midside", "--to", back).Code);
        var (raw, recovered) = (RawPairs.Steps(Raw), RawPairs.Steps(back));
        Assert.Equal(raw[0], recovered[0]);
        Assert.All(Enumerable.Range(0, raw[1].Length), n => Assert.InRange(raw[1][n] - recovered[1][n], -1, 1));
    }

    public void Dispose() => _folder.Dispose();
}
