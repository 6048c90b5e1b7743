using System.Diagnostics;
using Athwart.Catalogue;
using Athwart.Jobs.TakeIn;

namespace Athwart.Jobs.Tests.TakeIn;

public sealed class TakeInTests : IDisposable
{
    private readonly CardFixture _fixture = new();

    [Fact]
    public void Run_CopiesEveryFileWithItsFolders_ReadOnly_WithTheTimesOfTheCard()
    {
        _fixture.AddUsual();
        var time = new DateTime(2026, 11, 24, 7, 6, 4, DateTimeKind.Utc);
        File.SetLastWriteTimeUtc(Path.Combine(_fixture.Card, "TAKES/boat.wav"), time);

        var report = _fixture.Run();

        Assert.True(report.Complete);
        Assert.All(report.Files, file => Assert.Equal(TakenFileStatus.Copied, file.Status));
        Assert.Equal(OperatingSystem.IsLinux() ? ReadBackSource.Disk : ReadBackSource.SystemCache, report.ReadBack);
        Assert.Contains("empty", report.Files.Single(f => f.Length == 0).Message, StringComparison.Ordinal);
        Assert.Equal(time, File.GetLastWriteTimeUtc(Path.Combine(_fixture.LibraryFolder, "originals/2026-11-25 Canal lock/TAKES/boat.wav")));
        _fixture.AssertWhole();
    }

    [Fact]
    public void Run_SameCardTwice_AddsNothing()
    {
        _fixture.AddUsual();
        var first = _fixture.Run();

        var second = _fixture.Run();

        Assert.All(second.Files, file => Assert.Equal(TakenFileStatus.AlreadyHere, file.Status));
        Assert.Equal(first.Files.Select(f => f.File), second.Files.Select(f => f.File));
        Assert.Equal(0, second.BytesCopied);
        _fixture.AssertWhole();
    }

    [Fact]
    public void Run_SameCardIntoAnotherSession_IsKnownAndSaysWhere()
    {
        _fixture.AddUsual();
        _fixture.Run();

        var second = CardFixture.Run(_fixture.Request with { SessionName = "Lift bridge" });

        Assert.All(second.Files, file => Assert.Equal(TakenFileStatus.AlreadyHere, file.Status));
        Assert.Contains("Canal lock", second.Files[0].Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_OtherContentUnderAKnownName_KeepsBoth()
    {
        _fixture.Add("boat.wav", 5000, 1);
        _fixture.Run();
        _fixture.Add("boat.wav", 5000, 2);

        var second = _fixture.Run();

        var file = Assert.Single(second.Files);
        Assert.Equal(TakenFileStatus.Copied, file.Status);
        Assert.EndsWith("/boat (2).wav", file.LibraryPath, StringComparison.Ordinal);
        Assert.Contains("boat (2).wav", file.Message, StringComparison.Ordinal);
        Assert.Equal(2, Directory.GetFiles(Path.Combine(_fixture.LibraryFolder, "originals/2026-11-25 Canal lock")).Length);
        Assert.Equal(TakenFileStatus.AlreadyHere, _fixture.Run().Files[0].Status);
    }

    [Fact]
    public void Run_NumberedNamesOnTheCardToo_KeepsAllThree()
    {
        _fixture.Add("boat.wav", 5000, 1);
        _fixture.Run();
        _fixture.Add("boat.wav", 5001, 2);
        _fixture.Add("boat (2).wav", 5002, 3);

        var report = _fixture.Run();

        Assert.True(report.Complete);
        Assert.Equal(3, Directory.GetFiles(Path.Combine(_fixture.LibraryFolder, "originals/2026-11-25 Canal lock")).Length);
        Assert.Equal(2, report.Files.Select(f => f.LibraryPath).Distinct(StringComparer.Ordinal).Count());
    }

    [Fact]
    public void Run_LooseFilesOfOneNameFromTwoFolders_KeepsBoth()
    {
        var one = _fixture.Add("A/boat.wav", 5000, 1);
        var two = _fixture.Add("B/boat.wav", 5000, 2);

        var report = CardFixture.Run(_fixture.Request with { Sources = [one, two] });

        Assert.True(report.Complete);
        Assert.Equal(2, report.Files.Select(f => f.LibraryPath).Distinct(StringComparer.Ordinal).Count());
    }

    [Fact]
    public void Run_EqualContentAtTwoPlacesOfTheCard_KeepsBoth()
    {
        // The two halves of a mono pair in which nothing sounds.
        _fixture.Add("A/gates.wav", 5000, 1);
        _fixture.Add("B/gates.wav", 5000, 1);

        Assert.Equal(2, _fixture.Run().Files.Count(f => f.Status == TakenFileStatus.Copied));
        Assert.Equal(2, _fixture.Run().Files.Count(f => f.Status == TakenFileStatus.AlreadyHere));
        _fixture.AssertWhole();
    }

    [Fact]
    public void Run_NamesThatDifferByCase_WithSpacesAndBeyondAscii_AllArrive()
    {
        _fixture.Add("a.wav", 100, 1);
        _fixture.Add("A.wav", 100, 2);
        _fixture.Add("Écluse – 夜 ☂/  spaces  .wav", 100, 3);
        _fixture.Add("new\nline.wav", 100, 4);
        _fixture.Add(new string('n', 251) + ".wav", 100, 5);

        Assert.True(_fixture.Run().Complete);
        _fixture.AssertWhole();
    }

    [Fact]
    public void Run_ReadOnlyCard_IsTakenInAndLeftAsItWas()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("rights of Unix");
            return;
        }

        var file = _fixture.Add("TAKES/boat.wav", 5000);
        File.SetUnixFileMode(file, UnixFileMode.UserRead);
        File.SetUnixFileMode(Path.GetDirectoryName(file)!, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        File.SetUnixFileMode(_fixture.Card, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        var before = File.GetLastWriteTimeUtc(_fixture.Card);

        var report = _fixture.Run();

        Assert.True(report.Complete);
        Assert.Equal(before, File.GetLastWriteTimeUtc(_fixture.Card));
        Assert.Single(Directory.GetFiles(Path.GetDirectoryName(file)!));
    }

    [Fact]
    public void Run_LinksPipesHiddenAndUnfinished_AreLeftAloneAndReported()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "links and pipes of Linux");
        File.WriteAllText(Path.Combine(_fixture.Root, "secret"), "not on the card");
        Directory.CreateDirectory(Path.Combine(_fixture.Root, "card-two"));
        _fixture.Add("boat.wav", 100);
        _fixture.Add(".Trashes/old.wav", 100);
        _fixture.Add("SYSTEM VOLUME INFORMATION/x", 100);
        _fixture.Add("half.wav.athwart.part", 100);
        File.CreateSymbolicLink(Path.Combine(_fixture.Card, "out.wav"), Path.Combine(_fixture.Root, "secret"));
        Directory.CreateSymbolicLink(Path.Combine(_fixture.Card, "sibling"), Path.Combine(_fixture.Root, "card-two"));
        File.CreateSymbolicLink(Path.Combine(_fixture.Card, "in.wav"), "boat.wav");
        File.CreateSymbolicLink(Path.Combine(_fixture.Card, "circle.wav"), "circle.wav");
        Directory.CreateSymbolicLink(Path.Combine(_fixture.Card, "up"), _fixture.Card);
        Process.Start("mkfifo", Path.Combine(_fixture.Card, "pipe.wav")).WaitForExit();

        var report = _fixture.Run();

        Assert.Equal("boat.wav", Assert.Single(report.Files).CardPath);
        var reasons = report.Skipped.ToDictionary(s => s.CardPath, s => s.Reason, StringComparer.Ordinal);
        Assert.Equal(SkipReason.Hidden, reasons[".Trashes"]);
        Assert.Equal(SkipReason.Hidden, reasons["SYSTEM VOLUME INFORMATION"]);
        Assert.Equal(SkipReason.UnfinishedCopy, reasons["half.wav.athwart.part"]);
        Assert.Equal(SkipReason.LinkOutOfCard, reasons["out.wav"]);
        Assert.Equal(SkipReason.LinkOutOfCard, reasons["sibling"]);
        Assert.Equal(SkipReason.LinkWithinCard, reasons["in.wav"]);
        Assert.Equal(SkipReason.LinkOutOfCard, reasons["circle.wav"]);
        Assert.Equal(SkipReason.NotAFile, reasons["pipe.wav"]);
    }

    [Fact]
    public void Run_OriginalThatWasDeleted_IsTakenInAgainToItsPlace()
    {
        _fixture.AddUsual();
        var file = _fixture.Run().Files[0];
        File.Delete(Path.Combine(_fixture.LibraryFolder, file.LibraryPath!));

        var again = _fixture.Run().Files[0];

        Assert.Equal(TakenFileStatus.Copied, again.Status);
        Assert.Equal(file.File, again.File);
        _fixture.AssertWhole();
    }

    [Fact]
    public void Run_CardNotThere_SaysSo() =>
        Assert.Equal(TakeInErrorKind.CardNotFound, Assert.Throws<TakeInException>(() => CardFixture.Run(CardFixture.RequestFor("/no/such/card", _fixture.LibraryFolder))).Kind);

    [Fact]
    public void Run_LibraryOnTheCard_IsRefusedAndNothingWritten()
    {
        _fixture.AddUsual();

        var error = Assert.Throws<TakeInException>(() => CardFixture.Run(CardFixture.RequestFor(_fixture.Card, Path.Combine(_fixture.Card, "library"))));

        Assert.Equal(TakeInErrorKind.LibraryOnCard, error.Kind);
        Assert.False(Directory.Exists(Path.Combine(_fixture.Card, "library")));
    }

    [Fact]
    public void Run_TwoTakeInsOfOneSession_TheSecondIsRefused()
    {
        _fixture.AddUsual();
        TakeInException? error = null;
        var disk = new FaultyDisk { AtStep = 5 };
        disk.Action = () => error = Assert.Throws<TakeInException>(() => _fixture.Run());

        Assert.True(_fixture.Run(disk).Complete);
        Assert.Equal(TakeInErrorKind.SessionBusy, error?.Kind);
    }

    [Fact]
    public void Run_TwoSessionsOfOneLibraryAtOnce_BothArrive()
    {
        _fixture.AddUsual();
        var other = Path.Combine(_fixture.Root, "card two");
        Directory.CreateDirectory(other);
        for (var i = 0; i < 20; i++)
            File.WriteAllText(Path.Combine(other, $"note {i}.txt"), $"note {i}");

        var reports = new TakeInReport[2];
        Parallel.Invoke(
            () => reports[0] = _fixture.Run(),
            () => reports[1] = CardFixture.Run(CardFixture.RequestFor(other, _fixture.LibraryFolder) with { SessionName = "Lift bridge" }));

        Assert.All(reports, report => Assert.True(report.Complete));
        using var library = Library.Open(_fixture.LibraryFolder, LibraryAccess.Read);
        Assert.Equal(20, library.Files(reports[1].Session.Id).Count);
    }

    [Fact]
    public void Run_Progress_CountsUpToEverything()
    {
        _fixture.AddUsual();
        var seen = new List<TakeInProgress>();

        new TakeInJob().Run(_fixture.Request, new Recorder(seen), CancellationToken.None);

        Assert.Equal(seen.OrderBy(p => p.BytesDone).ThenBy(p => p.FilesDone), seen);
        Assert.Equal((6, 6), (seen[^1].FilesDone, seen[^1].FilesTotal));
        Assert.Equal(seen[^1].BytesTotal, seen[^1].BytesDone);
        Assert.Equal(TimeSpan.Zero, seen[^1].TimeLeft);
    }

    public void Dispose() => _fixture.Dispose();

    private sealed class Recorder(List<TakeInProgress> seen) : IProgress<TakeInProgress>
    {
        public void Report(TakeInProgress value) => seen.Add(value);
    }
}
