using System.Globalization;

namespace Athwart.Recordings.Tests;

/// <summary>Files byte for byte after RIFF 1991/1994 and EBU Tech 3306, with one thing changed in each.</summary>
public sealed class HeaderTests
{
    /// <summary>A whole file as literal bytes: 48 kHz, 2 channels, 24 bits, frames (1, −1) and (0x7FFFFF, −0x800000).</summary>
    private static readonly byte[] Literal =
    [
        0x52, 0x49, 0x46, 0x46, 0x30, 0x00, 0x00, 0x00, 0x57, 0x41, 0x56, 0x45, // RIFF, 48 bytes follow, WAVE
        0x66, 0x6D, 0x74, 0x20, 0x10, 0x00, 0x00, 0x00, // fmt , 16 bytes
        0x01, 0x00, 0x02, 0x00, // PCM, 2 channels
        0x80, 0xBB, 0x00, 0x00, 0x00, 0x65, 0x04, 0x00, // 48000 Hz, 288000 bytes a second
        0x06, 0x00, 0x18, 0x00, // 6 bytes a frame, 24 bits
        0x64, 0x61, 0x74, 0x61, 0x0C, 0x00, 0x00, 0x00, // data, 12 bytes
        0x01, 0x00, 0x00, 0xFF, 0xFF, 0xFF, // 1, −1
        0xFF, 0xFF, 0x7F, 0x00, 0x00, 0x80, // 8388607, −8388608
    ];

    [Fact]
    public void LiteralFile_ReadsEveryStepAndNoFinding()
    {
        using var file = WaveBytes.Open(Literal);
        Assert.Equal(ContainerKind.Wave, file.Container);
        Assert.Equal((2, 48_000, 2L, SampleFormat.Int24), (file.ChannelCount, file.SampleRateHertz, file.FrameCount, file.Format));
        var steps = WaveBytes.Steps(file);
        Assert.Equal([1, 8_388_607], steps[0]);
        Assert.Equal([-1, -8_388_608], steps[1]);
        Assert.Empty(file.Findings);
        Assert.Equal(["fmt ", "data"], file.Chunks.Select(c => c.Id));
        Assert.Equal(Literal[44..], WaveBytes.AllBytes(file));
    }

    [Fact]
    public void LiteralFile_ReadsFullScaleAsPlusMinusOne()
    {
        using var file = WaveBytes.Open(Literal);
        var floats = new PlanarBlock<float>(2, 2);
        Assert.Equal(2, file.Read(0, 2, floats));
        Assert.Equal(1f - (1f / 8_388_608), floats.Channel(0)[1]);
        Assert.Equal(-1f, floats.Channel(1)[1]);
        Assert.Equal(1.0 / 8_388_608, WaveBytes.Samples(file)[0][0]);
    }

    [Theory]
    [InlineData(0, 'X', RecordingErrorKind.NotARecording, 0L, "begins with")]
    [InlineData(3, 'X', RecordingErrorKind.Unsupported, 0L, "big-endian")]
    [InlineData(8, 'A', RecordingErrorKind.NotARecording, 8L, "not WAVE")]
    [InlineData(16, 15, RecordingErrorKind.Malformed, 20L, "at least 16 bytes")]
    [InlineData(20, 2, RecordingErrorKind.Unsupported, 20L, "ADPCM")]
    [InlineData(20, 3, RecordingErrorKind.Unsupported, 34L, "24-bit float")]
    [InlineData(22, 0, RecordingErrorKind.Malformed, 22L, "at least one channel")]
    [InlineData(22, 65, RecordingErrorKind.Unsupported, 22L, "64 channels")]
    [InlineData(27, 0x10, RecordingErrorKind.Unsupported, 24L, "8 to 768 kHz")]
    [InlineData(34, 0, RecordingErrorKind.Malformed, 34L, "0-bit")]
    [InlineData(34, 64, RecordingErrorKind.Unsupported, 34L, "64-bit integer")]
    [InlineData(12, 'g', RecordingErrorKind.Malformed, null, "'fmt ' chunk")]
    [InlineData(36, 'D', RecordingErrorKind.Malformed, null, "'data' chunk")]
    public void OneByteChanged_RefusesWithPlaceRuleAndRemedy(int at, int value, RecordingErrorKind kind, long? offset, string rule)
    {
        var bytes = (byte[])Literal.Clone();
        bytes[at] = (byte)value;
        var error = Assert.Throws<RecordingException>(() => WaveBytes.Open(bytes));
        Assert.Equal(kind, error.Kind);
        if (offset is not null)
            Assert.Equal(offset, error.ByteOffset);
        Assert.Contains(rule, error.Rule, StringComparison.Ordinal);
        Assert.NotEmpty(error.Remedy);
        Assert.StartsWith("card/gate.wav, byte ", error.Message, StringComparison.Ordinal);
        Assert.Contains(error.Remedy, error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(11)]
    public void FileShorterThanAHeader_IsRefused(int length)
    {
        var error = Assert.Throws<RecordingException>(() => WaveBytes.Open(Literal[..length]));
        Assert.Contains(error.Kind, new[] { RecordingErrorKind.Truncated, RecordingErrorKind.NotARecording });
    }

    [Theory]
    [InlineData(12)]
    [InlineData(30)]
    [InlineData(36)]
    public void FileCutBeforeItsSamples_IsTruncated(int length)
    {
        var error = Assert.Throws<RecordingException>(() => WaveBytes.Open(Literal[..length]));
        Assert.True(error.Kind is RecordingErrorKind.Truncated or RecordingErrorKind.Malformed, error.Message);
    }

    [Fact]
    public void ChunksInAnyOrder_ReadTheSame()
    {
        using var file = new WaveBytes().Chunk("note", [1, 2, 3]).Chunk("data", WaveBytes.Frames24(3)).Chunk("JUNK", new byte[5]).Format().Chunk("more", []).Open();
        Assert.Equal([1, 2, 3], WaveBytes.Steps(file)[0]);
        Assert.Equal(["note", "data", "JUNK", "fmt ", "more"], file.Chunks.Select(c => c.Id));
        Assert.Equal([1, 2, 3], file.ReadChunk(file.Chunks[0], 100));
        Assert.Equal([1, 2], file.ReadChunk(file.Chunks[0], 2));
        Assert.Empty(file.Findings);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void OddChunk_IsReadWithAndWithoutItsPadByte(bool pad)
    {
        using var file = new WaveBytes().Chunk("LIST", "INFOISFT\x03\0\0\0ab\0"u8, pad: pad).Format().Chunk("data", WaveBytes.Frames24(2)).Open();
        Assert.Equal([1, 2], WaveBytes.Steps(file)[0]);
        Assert.Equal("ab", Assert.Single(file.Info).Text);
        Assert.Equal(pad, file.Findings.Count == 0);
        Assert.All(file.Findings, f => Assert.Equal("odd-padding", f.Kind));
    }

    [Fact]
    public void OddDataChunkWithoutPadByte_IsFollowedByItsChunks()
    {
        using var file = new WaveBytes().Format(channels: 1, bits: 8).Chunk("data", [128, 129, 127], pad: false).Chunk("LIST", "INFOINAM\x02\0\0\0x\0"u8).Open();
        Assert.Equal([0, 1, -1], WaveBytes.Steps(file)[0]);
        Assert.Equal("x", Assert.Single(file.Info).Text);
    }

    [Theory]
    [InlineData("RF64", ContainerKind.Rf64)]
    [InlineData("BW64", ContainerKind.Bw64)]
    public void SixtyFourBitFile_TakesItsSizesFromDs64(string id, ContainerKind kind)
    {
        var bytes = new WaveBytes(id).Text("ds64").U32(28 + 12).U32(200).U32(0).U32(18).U32(0).U32(3).U32(0).U32(1).Text("long").U32(4).U32(0)
            .Format().Chunk("data", WaveBytes.Frames24(3), size: uint.MaxValue).Chunk("long", [1, 2, 3, 4], size: uint.MaxValue).Chunk("last", [9, 9]).ToArray();
        using var file = WaveBytes.Open(bytes);
        Assert.Equal((kind, 3L), (file.Container, file.FrameCount));
        Assert.Equal([1, 2, 3], WaveBytes.Steps(file)[0]);
        Assert.Equal([1, 2, 3, 4], file.ReadChunk(file.Chunks.Single(c => c.Id == "long"), 10));
        Assert.Equal("last", file.Chunks[^1].Id);
        Assert.Empty(file.Findings);
    }

    [Fact]
    public void Rf64DataSizeOf32Bits_IsTheOneThatCounts()
    {
        // EBU Tech 3306: the 32-bit size is only overruled where it is 0xFFFFFFFF.
        using var file = new WaveBytes("RF64").Text("ds64").U32(28).U32(0).U32(0).U32(999).U32(0).U32(0).U32(0).U32(0).Format().Chunk("data", WaveBytes.Frames24(2)).Chunk("more", [1, 2]).Open();
        Assert.Equal(2, file.FrameCount);
        Assert.Equal("more", file.Chunks[^1].Id);
    }

    [Fact]
    public void Rf64WithoutDs64_IsReadToItsEndWithAFinding()
    {
        using var file = new WaveBytes("RF64").Format().Chunk("data", WaveBytes.Frames24(4), size: uint.MaxValue).Open();
        Assert.Equal(4, file.FrameCount);
        Assert.Equal("rf64-without-ds64", Assert.Single(file.Findings).Kind);
    }

    [Fact]
    public void HugeTableLengthInDs64_IsBelievedNoFurtherThanItsBytes()
    {
        using var file = new WaveBytes("RF64").Text("ds64").U32(28).U32(0).U32(0).U32(12).U32(0).U32(2).U32(0).U32(uint.MaxValue).Format().Chunk("data", WaveBytes.Frames24(2), size: uint.MaxValue).Open();
        Assert.Equal(2, file.FrameCount);
    }

    [Theory]
    [InlineData(20, 24, 3)]
    [InlineData(12, 16, 2)]
    [InlineData(24, 32, 4)]
    public void FewerValidThanContainerBits_ReadByTheContainer(int valid, int container, int wordBytes)
    {
        var format = new WaveBytes().Text("fmt ").U32(40).U16(0xFFFE).U16(1).U32(48_000).U32(48_000L * wordBytes).U16(wordBytes).U16(container).U16(22).U16(valid).U32(4).U32(1).Raw(0, 0, 0x10, 0, 0x80, 0, 0, 0xAA, 0, 0x38, 0x9B, 0x71);
        using var file = format.Chunk("data", [.. new byte[wordBytes - 1], 0x40]).Open();
        Assert.Equal(new SampleFormat(SampleEncoding.SignedInteger, container, valid), file.Format);
        Assert.Equal(0.5, WaveBytes.Samples(file)[0][0]);
        Assert.Equal(4u, file.ChannelMask);
    }

    [Fact]
    public void PlainHeaderWith24BitsInFourBytes_IsReadAs32BitWords()
    {
        using var file = new WaveBytes().Format(channels: 1, bits: 24, blockAlign: 4).Chunk("data", [0, 0, 0, 0xC0]).Open();
        Assert.Equal(new SampleFormat(SampleEncoding.SignedInteger, 32, 24), file.Format);
        Assert.Equal(-0.5, WaveBytes.Samples(file)[0][0]);
        Assert.Equal("header-disagrees", Assert.Single(file.Findings).Kind);
    }

    [Fact]
    public void UnknownSubFormat_IsRefusedByItsGuid()
    {
        var error = Assert.Throws<RecordingException>(() => new WaveBytes().Text("fmt ").U32(40).U16(0xFFFE).U16(1).U32(48_000).U32(96_000).U16(2).U16(16).U16(22).U16(16).U32(4).U32(1).Raw(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12).Chunk("data", [0, 0]).Open());
        Assert.Equal(RecordingErrorKind.Unsupported, error.Kind);
        Assert.Contains("01000000", error.Rule, StringComparison.Ordinal);
    }

    [Fact]
    public void MoreChunksThanAnyRecordingHas_ReachTheLimit()
    {
        var bytes = new WaveBytes();
        for (var i = 0; i <= ChunkWalker.ChunkLimit; i++)
            bytes.Chunk("none", []);
        Assert.Equal(RecordingErrorKind.LimitReached, Assert.Throws<RecordingException>(() => bytes.Open()).Kind);
    }

    [Fact]
    public void Wave64_IsRefusedWithTheWayToConvertIt()
    {
        byte[] head = [.. "riff"u8, 0x2E, 0x91, 0xCF, 0x11, 0xA5, 0xD6, 0x28, 0xDB, 0x04, 0xC1, 0, 0, .. new byte[30]];
        var error = Assert.Throws<RecordingException>(() => WaveBytes.Open(head));
        Assert.Equal(RecordingErrorKind.Unsupported, error.Kind);
        Assert.Contains("w64", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void SixtyFourChannelsAt768Kilohertz_Read()
    {
        var data = Enumerable.Range(0, 128).SelectMany(i => new[] { (byte)i, (byte)0 }).ToArray();
        using var file = new WaveBytes().Format(channels: 64, rate: 768_000, bits: 16).Chunk("data", data).Open();
        Assert.Equal((64, 768_000, 2L), (file.ChannelCount, file.SampleRateHertz, file.FrameCount));
        Assert.Equal([63, 127], WaveBytes.Steps(file)[63]);
    }

    [Fact]
    public void ReadPastTheEnd_IsShortAndThenEmpty()
    {
        using var file = WaveBytes.Open(Literal);
        var block = new PlanarBlock<int>(2, 10);
        Assert.Equal(1, file.Read(1, 10, block));
        Assert.Equal([8_388_607], block.Channel(0).ToArray());
        Assert.Equal(0, file.Read(2, 10, block));
        Assert.Equal(0, file.Read(long.MaxValue, 10, block));
        Assert.Equal(0, block.Length);
        Assert.Throws<ArgumentOutOfRangeException>(() => file.Read(0, 11, block));
        Assert.Throws<ArgumentException>(() => file.Read(0, 1, new PlanarBlock<int>(1, 1)));
    }

    [Fact]
    public void FloatFile_HasNoSteps()
    {
        using var file = new WaveBytes().Format(tag: 3, channels: 1, bits: 32).Chunk("data", BitConverter.GetBytes(0.25f)).Open();
        Assert.Equal(0.25, WaveBytes.Samples(file)[0][0]);
        Assert.Throws<InvalidOperationException>(() => file.Read(0, 1, new PlanarBlock<int>(1, 1)));
    }

    [Fact]
    public void SampleFormat_SaysWhatItIs() => Assert.Equal(["24-bit integer", "20-bit integer in 24 bits", "32-bit float"], new[] { SampleFormat.Int24, new(SampleEncoding.SignedInteger, 24, 20), SampleFormat.Float32 }.Select(f => string.Create(CultureInfo.InvariantCulture, $"{f}")));
}
