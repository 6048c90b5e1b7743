using Athwart.Tests.Shared;

namespace Athwart.Cli.Tests;

public sealed class SalvageTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public void ABrokenOffFile_IsSavedBeside_WithEveryWholeFrame_AndIsItselfLeftAlone()
    {
        var sound = RawPairs.Steps(RawPairs.Write(_folder.File("sound.wav")));
        var damaged = RawPairs.BreakOff(RawPairs.Write(_folder.File("deck.wav")));
        var before = File.ReadAllBytes(damaged);

        // 1001 bytes of six-byte frames are 166 whole ones and part of another.
        var result = CommandLine.Run("salvage", damaged);
        Assert.Equal((ExitCode.Done, ""), (result.Code, result.Error));
        Assert.Contains("23833 whole frames", result.Output, StringComparison.Ordinal);
        var saved = RawPairs.Steps(_folder.File("deck salvaged.wav"));
        Assert.Equal(sound[0][..23833], saved[0]);
        Assert.Equal(sound[1][..23833], saved[1]);
        Assert.Equal(before, File.ReadAllBytes(damaged));
        Assert.Equal(ExitCode.Done, CommandLine.Run("check", _folder.File("deck salvaged.wav")).Code);
    }

    [Fact]
    public void AnExistingTarget_AndTheDamagedFileItself_AreRefusedWith5()
    {
        var damaged = RawPairs.BreakOff(RawPairs.Write(_folder.File("deck.wav")));
        var before = File.ReadAllBytes(damaged);
        Assert.Equal(ExitCode.Refused, CommandLine.Run("salvage", damaged, "--to", damaged).Code);
        Assert.Equal(before, File.ReadAllBytes(damaged));
        File.WriteAllText(_folder.File("deck salvaged.wav"), "mine");
        Assert.Equal(ExitCode.Refused, CommandLine.Run("salvage", damaged).Code);
        Assert.Equal("mine", File.ReadAllText(_folder.File("deck salvaged.wav")));
    }

    [Fact]
    public void WhatCannotBeARecording_ExitsWith3_AndAMissingFileWith2()
    {
        File.WriteAllText(_folder.File("list.wav"), "a shopping list");
        Assert.Equal(ExitCode.UnreadableRecording, CommandLine.Run("salvage", _folder.File("list.wav")).Code);
        Assert.Equal(ExitCode.WrongUse, CommandLine.Run("salvage", _folder.File("nowhere.wav")).Code);
        Assert.Equal(["list.wav"], Directory.GetFiles(_folder.Path).Select(Path.GetFileName), StringComparer.Ordinal);
    }

    public void Dispose() => _folder.Dispose();
}
