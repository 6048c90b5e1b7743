using System.Collections.Immutable;
using System.Text;
using CsCheck;

namespace Athwart.Recordings.Tests;

/// <summary>bext, LIST INFO, cue and adtl, smpl against their field tables.</summary>
public sealed class MetadataTests
{
    // EBU Tech 3285 v2: offsets of the fields; worked values −23.00 LUFS = 0xF704, −1.0 dBTP = 0xFF9C, 7.35 LU = 0x02DF.
    [Fact]
    public void Tech3285_FieldTable_ReadsEachFieldAtItsOffset()
    {
        var data = new byte[603];
        void Put(int at, string text) => Encoding.ASCII.GetBytes(text).CopyTo(data, at);
        Put(0, "lock gates, upper pound");
        Put(256, "field recorder");
        Put(288, "XX0001");
        Put(320, "2026-05-17");
        Put(330, "06:41:09");
        data.AsSpan(338, 8).Clear();
        BitConverter.GetBytes(158_760_000UL).CopyTo(data, 338);
        data[346] = 2;
        data[348] = 0x06;
        new byte[] { 0x04, 0xF7, 0xDF, 0x02, 0x9C, 0xFF, 0xFF, 0x7F, 0xFF, 0x7F }.CopyTo(data, 412);
        Put(602, "A");
        var bext = BroadcastExtension.Parse(data);
        Assert.Equal(("lock gates, upper pound", "field recorder", "XX0001", "2026-05-17", "06:41:09"), (bext.Description, bext.Originator, bext.OriginatorReference, bext.OriginationDate, bext.OriginationTime));
        // 01:00:00 at 44.1 kHz, the value of a published file.
        Assert.Equal(3600UL * 44_100, bext.TimeReference);
        Assert.Equal((2, -23.0, 7.35, -1.0), (bext.Version, bext.LoudnessValue, bext.LoudnessRange, bext.MaxTruePeakLevel));
        Assert.Null(bext.MaxMomentaryLoudness);
        Assert.Equal((64, (byte)6), (bext.Umid.Length, bext.Umid[0]));
        Assert.Equal("A", bext.CodingHistory);
        Assert.Equal(data, bext.ToBytes());
    }

    [Theory]
    [InlineData(0, false, false)]
    [InlineData(1, true, false)]
    [InlineData(2, true, true)]
    public void BextVersion_SaysWhichFieldsAreMeant(int version, bool umid, bool loudness)
    {
        var data = new byte[602];
        data.AsSpan(348, 74).Fill(1);
        data[346] = (byte)version;
        var bext = BroadcastExtension.Parse(data);
        Assert.Equal((umid, loudness), (!bext.Umid.IsEmpty, bext.LoudnessValue is not null));
    }

    [Fact]
    public void BextShorterThan602Bytes_IsNoBext() => Assert.Throws<FormatException>(() => BroadcastExtension.Parse(new byte[601]));

    [Fact]
    public void BextText_IsCutBetweenCharacters()
    {
        var bext = new BroadcastExtension { Originator = new string('a', 31) + "é", Description = new string('ü', 200) };
        var back = BroadcastExtension.Parse(bext.ToBytes());
        Assert.Equal((new string('a', 31), new string('ü', 128)), (back.Originator, back.Description));
    }

    [Fact]
    public void BextLoudnessThatCannotBeStored_IsNotUsed()
    {
        var bext = new BroadcastExtension { LoudnessValue = double.NegativeInfinity, LoudnessRange = double.NaN, MaxTruePeakLevel = 1000, MaxMomentaryLoudness = -18.005, MaxShortTermLoudness = -0.004 };
        var back = BroadcastExtension.Parse(bext.ToBytes());
        Assert.Equal((null, null, null, -18.01, 0.0), (back.LoudnessValue, back.LoudnessRange, back.MaxTruePeakLevel, back.MaxMomentaryLoudness, back.MaxShortTermLoudness));
    }

    [Fact]
    public void AnyBext_IsWrittenAndReadTheSame()
    {
        var text = Gen.String[Gen.Char[' ', '~'], 0, 30];
        Gen.Select(text, text, Gen.ULong, Gen.Int[0, 2], Gen.Int[-9999, 9999], Gen.String[Gen.Char[' ', '~'], 0, 900], Gen.Byte[1, 255].Array[64]).Sample((a, b, time, version, hundredths, history, umid) =>
        {
            var bext = new BroadcastExtension { Description = a, Originator = b, TimeReference = time, Version = version, CodingHistory = history, Umid = version > 0 ? [.. umid] : [], LoudnessValue = version > 1 ? hundredths / 100.0 : null };
            var back = BroadcastExtension.Parse(bext.ToBytes());
            Assert.Equal(bext.Umid.AsEnumerable(), back.Umid);
            Assert.Equal(bext, back with { Umid = bext.Umid });
        });
    }

    [Fact]
    public void InfoTags_ReadWithAndWithoutNulAndPad()
    {
        using var file = new WaveBytes().Format().Chunk("LIST", "INFOINAM\x04\0\0\0gateIART\x03\0\0\0me\0\0ICMT\x03\0\0\0odd"u8).Chunk("data", []).Open();
        Assert.Equal([new("INAM", "gate"), new("IART", "me"), new("ICMT", "odd")], file.Info);
    }

    [Fact]
    public void InfoTagLongerThanItsList_EndsTheList()
    {
        using var file = new WaveBytes().Format().Chunk("LIST", "INFOINAM\x02\0\0\0okICMT"u8.ToArray().Concat(new byte[] { 255, 255, 255, 255, 1 }).ToArray()).Chunk("data", []).Open();
        Assert.Equal([new("INAM", "ok")], file.Info);
    }

    [Fact]
    public void TextThatIsNoUtf8_ReadsAsLatin1()
    {
        using var file = new WaveBytes().Format().Chunk("LIST", [.. "INFOINAM\x03\0\0\0"u8, 0xE9, (byte)'t', 0xE9, 0]).Chunk("data", []).Open();
        Assert.Equal("été", Assert.Single(file.Info).Text);
    }

    // RIFF 1991: cue points of 24 bytes, labl and note by name, ltxt with a length; here as literal bytes, out of order.
    [Fact]
    public void CuePoints_HaveTheirLabelNoteAndLength()
    {
        byte[] cue = [2, 0, 0, 0, 7, 0, 0, 0, 0, 0, 0, 0, .. "data"u8, 0, 0, 0, 0, 0, 0, 0, 0, 0x10, 0x27, 0, 0, 3, 0, 0, 0, 0, 0, 0, 0, .. "data"u8, 0, 0, 0, 0, 0, 0, 0, 0, 5, 0, 0, 0];
        byte[] list = [.. "adtllabl"u8, 9, 0, 0, 0, 7, 0, 0, 0, .. "slam\0"u8, 0, .. "note"u8, 7, 0, 0, 0, 3, 0, 0, 0, .. "ok\0"u8, 0, .. "ltxt"u8, 20, 0, 0, 0, 7, 0, 0, 0, 0x20, 3, 0, 0, .. "rgn "u8, 0, 0, 0, 0, 0, 0, 0, 0];
        using var file = new WaveBytes().Chunk("LIST", list).Format().Chunk("data", []).Chunk("cue ", cue).Open();
        Assert.Equal([new(5, 0, "", "ok"), new(10_000, 800, "slam", "")], file.Markers);
    }

    [Fact]
    public void CueCountBeyondItsBytes_IsNotBelieved()
    {
        using var file = new WaveBytes().Format().Chunk("data", []).Chunk("cue ", [255, 255, 255, 255, 1, 0, 0, 0, 9, 0, 0, 0, .. new byte[16], 1, 2]).Open();
        Assert.Equal(9, Assert.Single(file.Markers).Frame);
    }

    // RIFF 1994: 48 kHz is a sample period of 20833 ns; the end of a loop is inclusive.
    [Fact]
    public void SamplerChunk_ReadsNoteAndLoops()
    {
        byte[] data = [.. new byte[8], 0x61, 0x51, 0, 0, 60, 0, 0, 0, 0, 0, 0, 0x80, .. new byte[8], 1, 0, 0, 0, 0, 0, 0, 0, 4, 0, 0, 0, 1, 0, 0, 0, 100, 0, 0, 0, 199, 0, 0, 0, 0, 0, 0, 0, 2, 0, 0, 0];
        using var file = new WaveBytes().Format().Chunk("smpl", data).Chunk("data", []).Open();
        Assert.Equal((60, 20_833u, 0x8000_0000u), (file.Sampler!.UnityNote, file.Sampler.SamplePeriodNanoseconds, file.Sampler.PitchFraction));
        Assert.Equal(new SamplerLoop(4, 1, 100, 199, 2), Assert.Single(file.Sampler.Loops));
    }

    [Fact]
    public void MetadataThatCannotBeRead_IsAFindingAndNoRefusal()
    {
        using var file = new WaveBytes().Format().Chunk("bext", new byte[100]).Chunk("iXML", "<BWFXML><SCENE>"u8).Chunk("smpl", [1]).Chunk("cue ", [1]).Chunk("LIST", [1, 2]).Chunk("data", WaveBytes.Frames24(1)).Open();
        Assert.Equal(1, file.FrameCount);
        Assert.Equal(["bext-unreadable", "ixml-unreadable"], file.Findings.Select(f => f.Kind));
        Assert.Equal((null, null, null), (file.Broadcast, file.Production, file.Sampler));
    }

    [Fact]
    public void EverythingWritten_IsReadBack()
    {
        using var folder = new Athwart.Tests.Shared.TemporaryFolder();
        var options = new WaveWriterOptions
        {
            ChannelCount = 2,
            SampleRateHertz = 96_000,
            Format = SampleFormat.Int24,
            Broadcast = new() { Description = "sluice", TimeReference = 5_000_000_000, CodingHistory = "A=PCM,F=96000,W=24,M=stereo,T=MS raw\r\n", Umid = ImmutableArray<byte>.Empty },
            Production = new() { Scene = "2", Take = "7", Tracks = [new(1, 1, "Mid", "M-MID_SIDE"), new(2, 2, "Side", "S-MID_SIDE")] },
            Info = [new("INAM", "sluice, åbning"), new("ICMT", "odd")],
            Markers = [new(10, 0, "start", ""), new(20, 30, "rush", "best part"), new(40, 0, "", "")],
        };
        using (var writer = WaveWriter.Create(folder.File("a b.wav"), options))
        {
            writer.WriteBytes(WaveBytes.Frames24(100));
            writer.Broadcast = writer.Broadcast! with { LoudnessValue = -23 };
            Assert.Throws<InvalidOperationException>(() => writer.Broadcast = writer.Broadcast! with { CodingHistory = "" });
            writer.Complete();
        }

        using var file = RecordingFile.Open(folder.File("a b.wav"));
        Assert.Equal(options.Broadcast with { LoudnessValue = -23 }, file.Broadcast! with { Umid = options.Broadcast.Umid });
        Assert.Equal(options.Production.Tracks, file.Production!.Tracks);
        Assert.Equal(options.Info, file.Info);
        Assert.Equal(options.Markers, file.Markers);
        Assert.Empty(file.Findings);
    }
}
