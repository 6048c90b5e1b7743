using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using Athwart.Tests.Shared;

namespace Athwart.Recordings.Tests;

/// <summary>Any bytes end in a recording with findings or in one typed error, in bounded memory; files larger than memory open at once.</summary>
public sealed class AbuseTests
{
    private const int InSuite = 20_000;
    private const int Soak = 1_000_000;

    [Fact]
    public void MutatedHeaders_EndInARecordingOrOneTypedError() => Fuzz(InSuite, seed: 1);

    [Fact]
    public void MillionMutatedHeaders_EndInARecordingOrOneTypedError()
    {
        if (!string.Equals(Environment.GetEnvironmentVariable("ATHWART_SOAK"), "1", StringComparison.Ordinal))
            Assert.Skip("set ATHWART_SOAK=1 to read a million mutated headers");
        TestContext.Current.TestOutputHelper?.WriteLine(Fuzz(Soak, seed: 2));
    }

    private static string Fuzz(int count, int seed)
    {
        var random = new Random(seed);
        var seeds = Seeds();
        var (read, refused, found) = (0, 0, 0);
        var most = 0L;
        for (var i = 0; i < count; i++)
        {
            var bytes = Mutate(seeds[i % seeds.Count], random);
            var before = GC.GetAllocatedBytesForCurrentThread();
            try
            {
                using var file = WaveBytes.Open(bytes);
                Use(file, bytes.Length);
                read++;
                found += file.Findings.Count > 0 ? 1 : 0;
            }
            catch (RecordingException e)
            {
                Assert.NotEmpty(e.Rule);
                Assert.NotEmpty(e.Remedy);
                refused++;
            }
            catch (Exception e)
            {
                Assert.Fail($"mutation {i} of seed {seed}: {e}\n{Convert.ToHexString(bytes)}");
            }

            most = Math.Max(most, GC.GetAllocatedBytesForCurrentThread() - before);
        }

        // A few kilobytes in; whatever its sizes claim, no header may take more than some hundred kilobytes.
        Assert.True(most < 1_000_000, $"one file of some kilobytes took {most} bytes");
        return string.Create(CultureInfo.InvariantCulture, $"{count} mutated headers: {read} read ({found} with findings), {refused} refused, at most {most} bytes allocated for one");
    }

    private static void Use(RecordingFile file, int length)
    {
        Assert.InRange(file.FrameCount * file.ChannelCount * file.Format.BytesPerSample, 0, length);
        Assert.All(file.Chunks, c => Assert.True(c.DataOffset >= 0 && c.Size >= 0 && c.DataOffset + c.Size <= length));
        var block = new PlanarBlock<float>(file.ChannelCount, 16);
        file.Read(0, 16, block);
        file.Read(Math.Max(0, file.FrameCount - 16), 16, block);
        _ = file.Production?.ToBytes();
        _ = file.Broadcast?.ToBytes();
        foreach (var chunk in file.Chunks)
            file.ReadChunk(chunk, 64);
    }

    private static byte[] Mutate(byte[] seed, Random random)
    {
        var bytes = seed.ToList();
        for (var n = random.Next(1, 5); n > 0; n--)
        {
            var at = random.Next(bytes.Count);
            switch (random.Next(7))
            {
                case 0: bytes[at] = (byte)random.Next(256); break;
                case 1: bytes[at] ^= (byte)(1 << random.Next(8)); break;
                case 2: Put(bytes, at, Interesting(random)); break;
                case 3: bytes.RemoveRange(at, random.Next(0, Math.Min(60, bytes.Count - at))); break;
                case 4: bytes.InsertRange(at, bytes.GetRange(at, random.Next(0, Math.Min(60, bytes.Count - at)))); break;
                case 5: Put(bytes, at & ~3, Interesting(random)); break;
                default: bytes.RemoveRange(at, bytes.Count - at); break;
            }

            if (bytes.Count == 0)
                return [];
        }

        return [.. bytes];
    }

    private static uint Interesting(Random random) => random.Next(9) switch
    {
        0 => 0,
        1 => uint.MaxValue,
        2 => int.MaxValue,
        3 => 0x8000_0000,
        4 => uint.MaxValue - 7,
        5 => (uint)random.Next(64),
        6 => BinaryPrimitives.ReadUInt32LittleEndian("data"u8),
        7 => BinaryPrimitives.ReadUInt32LittleEndian("LIST"u8),
        _ => (uint)random.Next(),
    };

    private static void Put(List<byte> bytes, int at, uint value)
    {
        for (var i = 0; i < 4 && at + i < bytes.Count; i++)
            bytes[at + i] = (byte)(value >> (8 * i));
    }

    private static List<byte[]> Seeds()
    {
        var bext = new BroadcastExtension { Description = "gate", CodingHistory = "A=PCM\r\n", LoudnessValue = -23 }.ToBytes();
        var ixml = new ProductionNotes { Scene = "1", Tracks = [new(1, 1, "Mid", "M-MID_SIDE")], FileSet = new("F", "", 1, "A") }.ToBytes();
        var cue = MarkerChunks.Points([new(1, 2, "a", "b"), new(3, 0, "c", "")]);
        var texts = MarkerChunks.Texts([new(1, 2, "a", "b"), new(3, 0, "c", "")]);
        return
        [
            new WaveBytes().Format().Chunk("data", WaveBytes.Frames24(20)).ToArray(),
            new WaveBytes().Chunk("bext", bext).Chunk("iXML", ixml).Format(tag: 3, bits: 32).Chunk("fact", [20, 0, 0, 0]).Chunk("data", new byte[160]).Chunk("cue ", cue).Chunk("LIST", texts).ToArray(),
            new WaveBytes("RF64").Text("ds64").U32(40).U32(0).U32(0).U32(120).U32(0).U32(20).U32(0).U32(1).Text("iXML").U32(ixml.Length).U32(0).Format().Chunk("data", WaveBytes.Frames24(20), size: uint.MaxValue).Chunk("iXML", ixml, size: uint.MaxValue).ToArray(),
            new WaveBytes().Text("fmt ").U32(40).U16(0xFFFE).U16(4).U32(96_000).U32(96_000 * 12).U16(12).U16(24).U16(22).U16(20).U32(0).U32(1).Raw(0, 0, 0x10, 0, 0x80, 0, 0, 0xAA, 0, 0x38, 0x9B, 0x71).Chunk("odd1", [1]).Chunk("smpl", new byte[60]).Chunk("LIST", "INFOINAM\x02\0\0\0x\0"u8).Chunk("data", new byte[121]).ToArray(),
            new WaveBytes().Format(channels: 1, bits: 8).Chunk("data", new byte[99], size: 0).ToArray(finished: false),
            new WaveBytes().Chunk("iXML", Encoding.Unicode.GetBytes("<?xml version='1.0' encoding='UTF-16'?><BWFXML><NOTE>x</NOTE></BWFXML>")).Format(bits: 16).Chunk("data", new byte[64]).ToArray(),
        ];
    }

    /// <summary>Writes a header and the last frames of a file that is mostly a hole.</summary>
    private static void Sparse(string path, long frames)
    {
        var header = new WaveBytes("RF64").Text("ds64").U32(28).U32(0).U32(0).Raw(BitConverter.GetBytes(frames * 6)).Raw(BitConverter.GetBytes(frames)).U32(0).Format(rate: 192_000).Text("data").U32(uint.MaxValue).ToArray(finished: false);
        header.AsSpan(4, 4).Fill(0xFF);
        using var file = new FileStream(path, FileMode.CreateNew, FileAccess.Write);
        file.Write(header);
        file.SetLength(header.Length + (frames * 6) + 12);
        file.Position = header.Length + ((frames - 2) * 6);
        file.Write([1, 0, 0, 2, 0, 0, 3, 0, 0, 4, 0, 0, .. "last"u8, 4, 0, 0, 0, 9, 9, 9, 9]);
    }

    [Fact]
    public void FourHoursAt192KilohertzAndMore_OpenAtOnceAndReadAtTheirEnd()
    {
        using var folder = new TemporaryFolder();
        // 18 GB, larger than four hours of 192 kHz 24-bit pair (16.6 GB) and than any 32-bit size.
        const long Frames = 3_000_000_000;
        var path = folder.File("long.wav");
        Sparse(path, Frames);
        var before = GC.GetAllocatedBytesForCurrentThread();
        using var file = RecordingFile.Open(path);
        Assert.Equal((ContainerKind.Rf64, Frames, 192_000), (file.Container, file.FrameCount, file.SampleRateHertz));
        Assert.Equal([9, 9, 9, 9], file.ReadChunk(file.Chunks[^1], 10));
        Assert.Empty(file.Findings);
        var block = new PlanarBlock<int>(2, 65_536);
        Assert.Equal(3, file.Read(Frames - 3, 100, block));
        Assert.Equal([0, 1, 3], block.Channel(0).ToArray());
        Assert.Equal([0, 2, 4], block.Channel(1).ToArray());
        for (long at = 0; at < Frames; at += Frames / 500)
            Assert.Equal(65_536, file.Read(Math.Min(at, Frames - 65_536), 65_536, block));
        // The block of this test takes half a megabyte, the rented buffer a quarter; 500 reads of an 18 GB file take no more.
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 2_000_000);
    }

    [Fact]
    public void RiffThatOutgrewItsSize_IsReadPast4Gib()
    {
        using var folder = new TemporaryFolder();
        var path = folder.File("wrapped.wav");
        const long Frames = 1_000_000_000;
        using (var file = new FileStream(path, FileMode.CreateNew, FileAccess.Write))
        {
            file.Write(new WaveBytes().Format().Text("data").U32(unchecked((uint)(Frames * 6))).ToArray(finished: false));
            file.SetLength(file.Position + (Frames * 6));
        }

        using var recording = RecordingFile.Open(path);
        Assert.Equal(Frames, recording.FrameCount);
        Assert.Equal("size-wrapped", Assert.Single(recording.Findings).Kind);
    }

    [Fact]
    public void ManyThreads_ReadOneRecording()
    {
        using var folder = new TemporaryFolder();
        var frames = WaveBytes.Frames24(200_000);
        File.WriteAllBytes(folder.File("a.wav"), new WaveBytes().Format().Chunk("data", frames).ToArray());
        using var file = RecordingFile.Open(folder.File("a.wav"));
        Parallel.For(0, 64, n =>
        {
            var block = new PlanarBlock<int>(2, 3000);
            Assert.Equal(3000, file.Read(n * 3000, 3000, block));
            for (var i = 0; i < 3000; i++)
                Assert.Equal((n * 3000) + i + 1, block.Channel(0)[i]);
        });
    }
}
