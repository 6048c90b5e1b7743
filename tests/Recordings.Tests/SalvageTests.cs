using Athwart.Tests.Shared;

namespace Athwart.Recordings.Tests;

/// <summary>Sound copies of damaged files.</summary>
public sealed class SalvageTests
{
    [Fact]
    public void DamagedFile_GetsASoundCopyWithAllItsWholeChunks()
    {
        using var folder = new TemporaryFolder();
        var (damaged, target) = (folder.File("broken.wav"), folder.File("sound.wav"));
        var bext = new byte[603];
        bext[0] = (byte)'x';
        var bytes = new WaveBytes().Chunk("bext", bext).Chunk("JUNK", new byte[100]).Format().Chunk("odd ", [1, 2, 3]).Chunk("data", [.. WaveBytes.Frames24(200), 9], size: 0).ToArray(finished: false);
        File.WriteAllBytes(damaged, bytes);
        File.SetLastWriteTimeUtc(damaged, new DateTime(2026, 5, 17, 6, 0, 0, DateTimeKind.Utc));
        var report = Salvager.Write(damaged, target, TestContext.Current.CancellationToken);
        Assert.Equal((200L, 48_000), (report.FrameCount, report.SampleRateHertz));
        Assert.Equal(["bext", "odd "], report.CarriedChunks);
        Assert.Empty(report.LostChunks);
        Assert.Contains("header-not-finished", report.Findings.Select(f => f.Kind));
        Assert.Equal(bytes, File.ReadAllBytes(damaged));
        Assert.Equal(new DateTime(2026, 5, 17, 6, 0, 0, DateTimeKind.Utc), File.GetLastWriteTimeUtc(damaged));
        using var sound = RecordingFile.Open(target);
        Assert.Empty(sound.Findings);
        Assert.Equal(WaveBytes.Frames24(200), WaveBytes.AllBytes(sound));
        Assert.Equal(bext, sound.ReadChunk(sound.Chunks.Single(c => c.Id == "bext"), 1000));
        Assert.Equal([1, 2, 3], sound.ReadChunk(sound.Chunks.Single(c => c.Id == "odd "), 1000));
    }

    [Fact]
    public void ChunkCutByTheEnd_IsLeftOutAndNamed()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder.File("a.wav"), new WaveBytes().Format().Chunk("data", WaveBytes.Frames24(2)).Chunk("iXML", [1], size: 100).ToArray());
        Assert.Equal(["iXML"], Salvager.Write(folder.File("a.wav"), folder.File("b.wav"), default).LostChunks);
    }

    [Fact]
    public void ExistingTargetAndTheFileItself_AreNeverOverwritten()
    {
        using var folder = new TemporaryFolder();
        var bytes = new WaveBytes().Format().Chunk("data", WaveBytes.Frames24(2)).ToArray();
        File.WriteAllBytes(folder.File("a.wav"), bytes);
        Assert.Throws<IOException>(() => Salvager.Write(folder.File("a.wav"), folder.File("a.wav"), default));
        Assert.Equal(bytes, File.ReadAllBytes(folder.File("a.wav")));
    }

    [Fact]
    public void CancelledSalvage_LeavesNothing()
    {
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder.File("a.wav"), new WaveBytes().Format().Chunk("data", WaveBytes.Frames24(2)).ToArray());
        Assert.Throws<OperationCanceledException>(() => Salvager.Write(folder.File("a.wav"), folder.File("b.wav"), new CancellationToken(canceled: true)));
        Assert.Equal([folder.File("a.wav")], Directory.GetFiles(folder.Path));
    }
}
