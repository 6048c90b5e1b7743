using System.Buffers.Binary;

namespace Athwart.Recordings.Tests;

/// <summary>Files as a power failure, a full card and hasty writers leave them.</summary>
public sealed class DamageTests
{
    private static Quantities.Finding Only(RecordingFile file) => Assert.Single(file.Findings);

    [Theory]
    [InlineData(0L)]
    [InlineData(0xFFFFFFFFL)]
    public void HeaderNeverFinished_IsReadToTheLastWholeFrame(long size)
    {
        byte[] samples = [.. WaveBytes.Frames24(5), 7, 7];
        using var file = WaveBytes.Open(new WaveBytes().Format().Chunk("data", samples, size).ToArray(finished: false));
        Assert.Equal(5, file.FrameCount);
        Assert.Equal([1, 2, 3, 4, 5], WaveBytes.Steps(file)[0]);
        Assert.Equal(["header-not-finished", "partial-frame"], file.Findings.Select(f => f.Kind));
        Assert.NotEmpty(file.Findings[0].Remedy);
        Assert.Equal("card/gate.wav", file.Findings[0].File);
    }

    [Fact]
    public void UnfinishedDs64_CountsAsUnknownSize()
    {
        using var file = new WaveBytes("RF64").Text("ds64").U32(28).U32(0).U32(0).U32(0).U32(0).U32(0).U32(0).U32(0).Format().Chunk("data", WaveBytes.Frames24(2), size: uint.MaxValue).Open();
        Assert.Equal(2, file.FrameCount);
        Assert.Equal("header-not-finished", Only(file).Kind);
    }

    [Fact]
    public void EmptyRecording_HasNoFramesAndNoFinding()
    {
        using var alone = new WaveBytes().Format().Chunk("data", []).Open();
        using var followed = new WaveBytes().Format().Chunk("data", []).Chunk("LIST", "INFOINAM\x02\0\0\0x\0"u8).Open();
        Assert.Equal((0L, 0L), (alone.FrameCount, followed.FrameCount));
        Assert.Equal("x", Assert.Single(followed.Info).Text);
        Assert.Empty(alone.Findings);
        Assert.Empty(followed.Findings);
    }

    [Fact]
    public void StreamedFileWithChunksBehindItsSamples_DoesNotTakeThemForSound()
    {
        using var file = new WaveBytes().Format().Chunk("data", WaveBytes.Frames24(50), size: uint.MaxValue).Chunk("bext", new byte[603]).Chunk("LIST", "INFOINAM\x02\0\0\0x\0"u8).Open();
        Assert.Equal(50, file.FrameCount);
    }

    [Fact]
    public void SizePastTheEnd_IsReadAsFarAsItGoes()
    {
        using var file = new WaveBytes().Format().Chunk("data", WaveBytes.Frames24(3).AsSpan(0, 16), size: 18_000).Open();
        Assert.Equal(2, file.FrameCount);
        Assert.Equal(["cut-short", "partial-frame"], file.Findings.Select(f => f.Kind));
        Assert.Equal([18_000, 16], file.Findings[0].Evidence.Select(e => e.Value));
    }

    [Fact]
    public void Ds64SizePastTheEnd_IsReadAsFarAsItGoes()
    {
        using var file = new WaveBytes("RF64").Text("ds64").U32(28).U32(0).U32(0).U32(0).U32(0x7FFF_FFFF).U32(0).U32(0).U32(0).Format().Chunk("data", WaveBytes.Frames24(2), size: uint.MaxValue).Open();
        Assert.Equal(2, file.FrameCount);
        Assert.Equal("cut-short", Only(file).Kind);
    }

    [Fact]
    public void SoundEndingInMidFrame_LosesOnlyThatFrame()
    {
        using var file = new WaveBytes().Format().Chunk("data", [.. WaveBytes.Frames24(2), 1]).Chunk("last", [1, 2]).Open();
        Assert.Equal(2, file.FrameCount);
        Assert.Equal("partial-frame", Only(file).Kind);
        Assert.Equal("last", file.Chunks[^1].Id);
    }

    [Fact]
    public void ChunkCutByTheEnd_IsNamed()
    {
        using var file = new WaveBytes().Format().Chunk("data", WaveBytes.Frames24(2)).Chunk("iXML", "<BWFX"u8, size: 5000).Open();
        Assert.Equal(2, file.FrameCount);
        Assert.False(file.Chunks[^1].IsWhole);
        Assert.Contains("chunk-cut-short", file.Findings.Select(f => f.Kind));
        Assert.Null(file.Production);
    }

    [Fact]
    public void ChunkOfImpossibleSizeBeforeTheSamples_IsSteppedOver()
    {
        using var file = new WaveBytes().Chunk("bext", new byte[620], size: 0x7000_0000).Format().Chunk("data", WaveBytes.Frames24(4)).Open();
        Assert.Equal(4, file.FrameCount);
        Assert.Equal("chunk-cut-short", Only(file).Kind);
    }

    [Fact]
    public void BytesThatAreNoChunk_AreLeftOut()
    {
        using var file = new WaveBytes().Format().Chunk("data", WaveBytes.Frames24(2)).Raw(0, 1, 2, 3, 4, 5, 6, 7, 8, 9).Open();
        Assert.Equal(2, file.FrameCount);
        Assert.Equal("trailing-bytes", Only(file).Kind);
    }

    [Fact]
    public void WrongRiffSize_DoesNotMatter()
    {
        var bytes = new WaveBytes().Format().Chunk("data", WaveBytes.Frames24(2)).Chunk("last", [1, 2]).ToArray();
        BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(4), 36);
        using var file = WaveBytes.Open(bytes);
        Assert.Equal((2L, "last"), (file.FrameCount, file.Chunks[^1].Id));
    }

    [Fact]
    public void SecondDataChunk_IsReportedAndNotRead()
    {
        using var file = new WaveBytes().Format().Chunk("data", WaveBytes.Frames24(2)).Chunk("data", WaveBytes.Frames24(7)).Open();
        Assert.Equal(2, file.FrameCount);
        Assert.Equal("second-data-chunk", Only(file).Kind);
    }

    [Fact]
    public void EveryCutOfASoundFile_ReadsWholeFramesOrIsRefused()
    {
        var whole = new WaveBytes().Format().Chunk("LIST", "INFOINAM\x02\0\0\0x\0"u8).Chunk("data", WaveBytes.Frames24(9)).Chunk("bext", new byte[602]).ToArray();
        var samplesAt = whole.Length - 610 - 54;
        for (var length = 0; length < whole.Length; length++)
        {
            try
            {
                using var file = WaveBytes.Open(whole[..length]);
                Assert.Equal(Math.Clamp((length - samplesAt) / 6, 0, 9), file.FrameCount);
                Assert.Equal(Enumerable.Range(1, (int)file.FrameCount), WaveBytes.Steps(file)[0]);
            }
            catch (RecordingException)
            {
                Assert.True(length < samplesAt);
            }
        }
    }

    [Fact]
    public void FilesThatCannotBeRead_AreOneTypedError()
    {
        using var folder = new Athwart.Tests.Shared.TemporaryFolder();
        File.WriteAllBytes(folder.File("empty.wav"), []);
        Assert.Equal(RecordingErrorKind.NotARecording, Assert.Throws<RecordingException>(() => RecordingFile.Open(folder.File("empty.wav"))).Kind);
        Assert.Equal(RecordingErrorKind.Unreadable, Assert.Throws<RecordingException>(() => RecordingFile.Open(folder.File("gone.wav"))).Kind);
        Assert.Equal(RecordingErrorKind.Unreadable, Assert.Throws<RecordingException>(() => RecordingFile.Open(folder.Path)).Kind);
    }

    [Fact]
    public void PipesAndDevices_AreRefusedWithoutWaitingForThem()
    {
        using var folder = new Athwart.Tests.Shared.TemporaryFolder();
        Athwart.Tests.Shared.ReferenceProgram.Run(Athwart.Tests.Shared.ReferenceProgram.Require("mkfifo"), folder.File("pipe.wav"));
        File.CreateSymbolicLink(folder.File("link.wav"), folder.File("pipe.wav"));
        foreach (var path in new[] { folder.File("pipe.wav"), folder.File("link.wav"), "/dev/zero" })
            Assert.Equal(RecordingErrorKind.NotARecording, Assert.Throws<RecordingException>(() => RecordingFile.Open(path)).Kind);
    }

    [Fact]
    public void LinkToARecording_IsRead()
    {
        using var folder = new Athwart.Tests.Shared.TemporaryFolder();
        File.WriteAllBytes(folder.File("Schleuse ö.wav"), new WaveBytes().Format().Chunk("data", WaveBytes.Frames24(3)).ToArray());
        File.CreateSymbolicLink(folder.File("link.wav"), folder.File("Schleuse ö.wav"));
        using var file = RecordingFile.Open(folder.File("link.wav"));
        Assert.Equal(3, file.FrameCount);
    }

    [Fact]
    public void FileThatShrinksWhileItIsRead_IsTruncated()
    {
        using var folder = new Athwart.Tests.Shared.TemporaryFolder();
        var path = folder.File("gate.wav");
        File.WriteAllBytes(path, new WaveBytes().Format().Chunk("data", WaveBytes.Frames24(100)).ToArray());
        using var file = RecordingFile.Open(path);
        using (var cut = new FileStream(path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite))
            cut.SetLength(100);
        var error = Assert.Throws<RecordingException>(() => WaveBytes.Steps(file));
        Assert.Equal(RecordingErrorKind.Truncated, error.Kind);
    }
}
