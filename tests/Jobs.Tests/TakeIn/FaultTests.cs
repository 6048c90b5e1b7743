using Athwart.Catalogue;
using Athwart.Jobs.TakeIn;

namespace Athwart.Jobs.Tests.TakeIn;

public sealed class FaultTests : IDisposable
{
    private const int NoSpace = 28;

    private readonly CardFixture _fixture = new();

    [Fact]
    public void ReadBack_OneFlippedBit_IsCaught_TheOthersArrive_AndTheNextRunHeals()
    {
        _fixture.AddUsual();
        var flips = 0;
        var disk = new FaultyDisk { OnReadBack = (_, bytes) => bytes[^1] ^= (byte)(bytes.Length == 300 && flips++ == 0 ? 1 : 0) };

        var report = _fixture.Run(disk);

        var bad = Assert.Single(report.Files, f => !f.IsInLibrary);
        Assert.Equal("take list é.txt", bad.CardPath);
        Assert.Equal(TakenFileStatus.Failed, bad.Status);
        Assert.Contains("differs from the card", bad.Message, StringComparison.Ordinal);
        Assert.False(report.Complete);
        Assert.False(File.Exists(Path.Combine(_fixture.LibraryFolder, report.Session.Folder, "take list é.txt")));
        using (var library = Library.Open(_fixture.LibraryFolder, LibraryAccess.Read))
            Assert.Equal(FileState.Refused, library.Files(report.Session.Id).Single(f => f.CardPath == bad.CardPath).State);

        Assert.True(_fixture.Run().Complete);
        _fixture.AssertWhole();
    }

    [Theory]
    [InlineData(0)]
    [InlineData(4_000_000)]
    [InlineData(8 << 20)]
    public void ReadBack_ByteThatTheDiskChanged_IsCaughtWhereverItIs(long place)
    {
        var path = _fixture.Add("boat.wav", (8 << 20) + 1);
        var target = Path.Combine(_fixture.LibraryFolder, "originals/2026-11-25 Canal lock/boat.wav.athwart.part");
        // The byte is really changed on the disk, after it was written and before it is read back.
        var disk = new CorruptingDisk(target, place);

        var report = _fixture.Run(disk);

        Assert.Equal(TakenFileStatus.Failed, Assert.Single(report.Files).Status);
        Assert.False(File.Exists(target));
        Assert.Equal((8 << 20) + 1, new FileInfo(path).Length);
    }

    [Fact]
    public void Write_DiskFull_StopsWithAMessage_KeepsWhatIsDone_AndTheNextRunGoesOn()
    {
        _fixture.AddUsual();
        var writes = 0;
        var disk = new FaultyDisk { OnWrite = _ => throwIfSecondFile() };

        var report = _fixture.Run(disk);

        Assert.True(report.DiskFull);
        Assert.False(report.Complete);
        Assert.Contains(report.Files, f => f.Message.Contains("disk is full", StringComparison.Ordinal));
        Assert.Contains(report.Files, f => f.Status == TakenFileStatus.NotReached);
        Assert.Empty(Directory.EnumerateFiles(_fixture.LibraryFolder, "*.part", SearchOption.AllDirectories));
        Assert.True(_fixture.Run().Complete);
        _fixture.AssertWhole();

        void throwIfSecondFile()
        {
            if (++writes == 4)
                throw new IOException("No space left on device", NoSpace);
        }
    }

    [Fact]
    public void Space_TooLittle_IsSaidBeforeAnythingIsCopied()
    {
        _fixture.AddUsual();

        var error = Assert.Throws<TakeInException>(() => _fixture.Run(new FaultyDisk { Free = 20_000_000 }));

        Assert.Equal(TakeInErrorKind.NotEnoughSpace, error.Kind);
        Assert.Contains("20.0 MB", error.Message, StringComparison.Ordinal);
        Assert.Empty(Directory.EnumerateFiles(Path.Combine(_fixture.LibraryFolder, "originals"), "*", SearchOption.AllDirectories));
    }

    [Fact]
    public void Space_TooLittleForACardThatIsHereAlready_DoesNotMatter()
    {
        _fixture.AddUsual();
        _fixture.Run();

        Assert.True(_fixture.Run(new FaultyDisk { Free = 0 }).Complete);
    }

    [Fact]
    public void Card_VanishesInMidCopy_TheRestIsReported_TheFinishedStays()
    {
        _fixture.AddUsual();
        var reads = 0;
        var disk = new FaultyDisk { OnReadCard = _ => gone() };

        var report = _fixture.Run(disk);

        Assert.Equal(report.Files.Count, report.Files.Count(f => f.Status is TakenFileStatus.Copied or TakenFileStatus.Failed));
        Assert.InRange(report.Files.Count(f => f.Status == TakenFileStatus.Copied), 1, report.Files.Count - 1);
        Assert.All(report.Files.Where(f => !f.IsInLibrary), f => Assert.Contains("could not be read from the card", f.Message, StringComparison.Ordinal));
        Assert.True(_fixture.Run().Complete);
        _fixture.AssertWhole();

        void gone()
        {
            if (++reads > 25)
                throw new IOException("No such device");
        }
    }

    [Fact]
    public void Card_FileThatShrinksInMidCopy_IsReported()
    {
        var path = _fixture.Add("boat.wav", 2_000_000);
        var disk = new FaultyDisk { OnReadCard = offset => cut(offset) };

        var file = Assert.Single(_fixture.Run(disk).Files);

        Assert.Equal(TakenFileStatus.Failed, file.Status);
        Assert.Contains("2000000", file.Message, StringComparison.Ordinal);

        void cut(long offset)
        {
            if (offset == 512 * 1024)
                File.WriteAllBytes(path, new byte[1000]);
        }
    }

    [Fact]
    public void Cancellation_EndsCleanly_AndTheNextRunGoesOn()
    {
        _fixture.AddUsual();
        using var source = new CancellationTokenSource();
        var disk = new FaultyDisk { AtStep = 30, Action = source.Cancel };

        var report = new TakeInJob(TimeProvider.System, disk).Run(_fixture.Request, null, source.Token);

        Assert.True(report.Cancelled);
        Assert.DoesNotContain(report.Files, f => f.Status == TakenFileStatus.Failed);
        Assert.Contains(report.Files, f => f.Status == TakenFileStatus.NotReached);
        Assert.Empty(Directory.EnumerateFiles(_fixture.LibraryFolder, "*.part", SearchOption.AllDirectories));
        Assert.True(_fixture.Run().Complete);
        _fixture.AssertWhole();
    }

    [Fact]
    public void Death_BeforeEveryStep_IsHealedByTheNextRun()
    {
        _fixture.Add("TAKES/gates.wav", 600_000, 1);
        _fixture.Add("notes.txt", 300, 2);
        _fixture.Add("empty.log", 0);
        var counter = new FaultyDisk();
        _fixture.Run(counter);
        var adopted = 0;

        for (var step = 1; step <= counter.Steps; step++)
        {
            var request = CardFixture.RequestFor(_fixture.Card, Path.Combine(_fixture.Root, $"library {step}"));
            Assert.ThrowsAny<Exception>(() => CardFixture.Run(request, new FaultyDisk { AtStep = step, Die = true }));

            var report = CardFixture.Run(request);

            Assert.True(report.Complete);
            adopted += report.Files.Count(f => f.Status == TakenFileStatus.Adopted);
            Assert.Equal(3, Directory.EnumerateFiles(Path.Combine(request.LibraryFolder, "originals"), "*", SearchOption.AllDirectories).Count());
            Assert.All(report.Files, f => Assert.Equal(f.Sha256, CardFixture.HashOf(Path.Combine(request.LibraryFolder, f.LibraryPath!))));
        }

        // Dying between the rename and the catalogue leaves proved copies without a row.
        Assert.InRange(adopted, 3, counter.Steps);
    }

    [Fact]
    public void Adoption_OfACopyThatIsNotEqual_DoesNotHappen()
    {
        _fixture.Add("boat.wav", 5000, 1);
        var folder = Path.Combine(_fixture.LibraryFolder, "originals/2026-11-25 Canal lock");
        Directory.CreateDirectory(folder);
        File.WriteAllBytes(Path.Combine(folder, "boat.wav"), new byte[5000]);

        var file = Assert.Single(_fixture.Run().Files);

        Assert.Equal(TakenFileStatus.Copied, file.Status);
        Assert.EndsWith("boat (2).wav", file.LibraryPath, StringComparison.Ordinal);
    }

    public void Dispose() => _fixture.Dispose();

    /// <summary>Changes one byte in the part when the stretch that holds it is settled.</summary>
    private sealed class CorruptingDisk(string part, long place) : TakeInDisk
    {
        public override void Settle(Microsoft.Win32.SafeHandles.SafeFileHandle file, long offset, long length)
        {
            base.Settle(file, offset, length);
            if (place < offset || place >= offset + length)
                return;
            using var stream = new FileStream(part, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite);
            stream.Position = place;
            var value = stream.ReadByte();
            stream.Position = place;
            stream.WriteByte((byte)(value ^ 0x10));
        }
    }
}
