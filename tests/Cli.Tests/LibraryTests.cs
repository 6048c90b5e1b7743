using Athwart.Tests.Shared;

namespace Athwart.Cli.Tests;

/// <summary>The commands of the day on a small card: take in, roles, cut, deliver, verify.</summary>
public sealed class LibraryTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public LibraryTests()
    {
        RawPairs.Write(Path.Combine(_folder.Path, "card", "GATE.WAV"));
        RawPairs.Write(Path.Combine(_folder.Path, "card", "BOAT.WAV"), peak: 0.1);
        Assert.Equal(ExitCode.Done, Run("take-in", _folder.File("card"), "--date", "2026-05-14").Code);
    }

    private string Delivered => _folder.File("delivered");

    [Fact]
    public void Takes_ListsTheSession()
    {
        var sessions = CommandLine.Run("takes", "--library", _folder.File("lib"));
        Assert.Contains("Lock, spring", sessions.Output, StringComparison.Ordinal);
        Assert.Contains("2026-05-14", sessions.Output, StringComparison.Ordinal);
        var takes = Run("takes");
        Assert.Contains("GATE", takes.Output, StringComparison.Ordinal);
        Assert.Contains("48000 Hz", takes.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Roles_OfTheSession_AndOfOneTake_AreKept()
    {
        Assert.Equal(ExitCode.Done, Run("roles", "--mid", "2", "--side", "1").Code);
        var all = Run("roles").Output;
        Assert.Equal(2, all.Split('\n').Count(l => l.Contains("channel 2", StringComparison.Ordinal)));

        Assert.Equal(ExitCode.Done, Run("roles", "--take", "GATE", "--mid", "1", "--side", "2", "--invert-side").Code);
        var lines = Run("roles").Output.Split('\n');
        Assert.Matches("channel 1 +channel 2 +yes", Line(lines, "GATE"));
        Assert.Matches("channel 2 +channel 1 +no", Line(lines, "BOAT"));

        Assert.Equal(ExitCode.Done, Run("roles", "--take", "GATE", "--clear").Code);
        Assert.Matches("channel 2 +channel 1 +no", Line(Run("roles").Output.Split('\n'), "GATE"));
    }

    [Theory]
    [InlineData("--mid", "5")]
    [InlineData("--mid", "0")]
    public void AChannelThatATakeDoesNotHave_IsRefusedAndNotKept(string option, string channel)
    {
        Assert.Equal(ExitCode.WrongUse, Run("roles", "--take", "GATE", option, channel).Code);
        Assert.Matches("channel 1 +channel 2 +no", Line(Run("roles").Output.Split('\n'), "GATE"));
    }

    [Theory]
    [InlineData("--mid", "5")]
    [InlineData("--mid", "0")]
    public void AChannelThatNoTakeHas_IsRefusedForTheSessionAndNotKept(string option, string channel)
    {
        Assert.Equal(ExitCode.WrongUse, Run("roles", option, channel).Code);
        Assert.Matches("channel 1 +channel 2 +no", Line(Run("roles").Output.Split('\n'), "GATE"));
    }

    [Fact]
    public void CutDeliverVerify_AndAChangedFileExitsWith1()
    {
        Assert.Equal(ExitCode.Done, Run("cut", "--take", "GATE", "--from", "0.1", "--to", "0.3", "--name", "clang").Code);
        var delivered = Run("deliver", "--to", Delivered, "--side-level", "-3");
        Assert.Equal(ExitCode.Done, delivered.Code);
        Assert.Contains(Delivered, delivered.Output, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Done, CommandLine.Run("verify", Delivered).Code);

        File.AppendAllText(Path.Combine(Delivered, "report.html"), " ");
        var changed = CommandLine.Run("verify", Delivered);
        Assert.Equal(ExitCode.FaultFound, changed.Code);
        Assert.Contains("changed    report.html", changed.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void ADeliveryIntoAFolderThatHoldsSomething_ExitsWith5()
    {
        Directory.CreateDirectory(Delivered);
        File.WriteAllText(Path.Combine(Delivered, "mine.txt"), "mine");
        Assert.Equal(ExitCode.Refused, Run("deliver", "--to", Delivered).Code);
        Assert.Equal(["mine.txt"], Directory.GetFiles(Delivered).Select(Path.GetFileName), StringComparer.Ordinal);
    }

    [Fact]
    public void WhatIsNotThere_ExitsWith2_AndIsNamed()
    {
        Assert.Contains("Winter", CommandLine.Run("takes", "--library", _folder.File("lib"), "--session", "Winter").Error, StringComparison.Ordinal);
        Assert.Equal(ExitCode.WrongUse, CommandLine.Run("takes", "--library", _folder.File("lib"), "--session", "Winter").Code);
        Assert.Equal(ExitCode.WrongUse, CommandLine.Run("takes", "--library", _folder.File("nowhere")).Code);
        Assert.Equal(ExitCode.WrongUse, Run("cut", "--take", "BELL", "--whole").Code);
        Assert.Equal(ExitCode.WrongUse, Run("take-in", _folder.File("nowhere")).Code);
        Assert.Equal(ExitCode.WrongUse, CommandLine.Run("verify", _folder.Path).Code);
        Assert.False(Directory.Exists(_folder.File("nowhere")));
    }

    public void Dispose() => _folder.Dispose();

    private static string Line(string[] lines, string take) => lines.Single(l => l.Contains(take, StringComparison.Ordinal));

    private CommandResult Run(params string[] args) => CommandLine.Run([.. args, "--library", _folder.File("lib"), "--session", "Lock, spring"]);
}
