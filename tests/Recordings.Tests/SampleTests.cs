using CsCheck;

namespace Athwart.Recordings.Tests;

/// <summary>Words in, samples out, and back, against a naive version and as properties.</summary>
public sealed class SampleTests
{
    private static readonly SampleFormat[] AllFormats = [SampleFormat.UInt8, SampleFormat.Int16, SampleFormat.Int24, SampleFormat.Int32, SampleFormat.Float32, SampleFormat.Float64, new(SampleEncoding.SignedInteger, 24, 20), new(SampleEncoding.SignedInteger, 32, 24)];

    /// <summary>One word by the book, in double.</summary>
    private static double Naive(ReadOnlySpan<byte> word, SampleFormat format) => (format.Encoding, format.ContainerBits) switch
    {
        (SampleEncoding.UnsignedInteger, _) => (word[0] - 128) / 128.0,
        (SampleEncoding.SignedInteger, 16) => BitConverter.ToInt16(word) / 32_768.0,
        (SampleEncoding.SignedInteger, 24) => (((sbyte)word[2] * 65_536) + (word[1] * 256) + word[0]) / 8_388_608.0,
        (SampleEncoding.SignedInteger, 32) => BitConverter.ToInt32(word) / 2_147_483_648.0,
        (_, 32) => BitConverter.ToSingle(word),
        _ => BitConverter.ToDouble(word),
    };

    [Fact]
    public void EveryFormatChannelCountAndLength_DecodesAsTheNaiveVersion()
    {
        var random = new Random(1);
        foreach (var format in AllFormats)
        {
            foreach (var (channels, frames) in new[] { (1, 0), (1, 1), (1, 4), (1, 5), (1, 6), (1, 33), (2, 1), (2, 3), (2, 4), (2, 5), (2, 8), (2, 31), (3, 7), (64, 5), (2, 4_003) })
            {
                var bytes = new byte[channels * frames * format.BytesPerSample];
                random.NextBytes(bytes);
                Check(bytes, format, channels, frames);
            }
        }
    }

    private static void Check(byte[] bytes, SampleFormat format, int channels, int frames)
    {
        var (floats, doubles, steps) = (new PlanarBlock<float>(channels, frames), new PlanarBlock<double>(channels, frames), new PlanarBlock<int>(channels, frames));
        SampleDecoder.Decode(bytes, format, channels, frames, new BlockTarget<float>(floats, 0, 0));
        SampleDecoder.Decode(bytes, format, channels, frames, new BlockTarget<double>(doubles, 0, 0));
        if (format.IsInteger)
            SampleDecoder.Decode(bytes, format, channels, frames, new BlockTarget<int>(steps, 0, 0));
        for (var i = 0; i < frames; i++)
        {
            for (var c = 0; c < channels; c++)
            {
                var naive = Naive(bytes.AsSpan(((i * channels) + c) * format.BytesPerSample, format.BytesPerSample), format);
                Assert.Equal(naive, doubles.WholeChannel(c)[i]);
                Assert.Equal((float)naive, floats.WholeChannel(c)[i]);
                if (format.IsInteger)
                    Assert.Equal(naive * (1L << (format.ContainerBits - 1)), steps.WholeChannel(c)[i]);
            }
        }
    }

    [Fact]
    public void EveryTwentyFourBitWord_SurvivesTheRoundTrip()
    {
        const int Count = 1 << 16;
        var (block, back) = (new PlanarBlock<int>(2, Count), new PlanarBlock<int>(2, Count));
        var bytes = new byte[Count * 6];
        for (var high = -128; high < 128; high++)
        {
            for (var i = 0; i < Count; i++)
                block.WholeChannel(0)[i] = ~(block.WholeChannel(1)[i] = (high << 16) | i);
            Assert.True(SampleEncoder.Encode(block, 0, Count, SampleFormat.Int24, bytes));
            SampleDecoder.Decode(bytes, SampleFormat.Int24, 2, Count, new BlockTarget<int>(back, 0, 0));
            Assert.True(block.WholeChannel(0).SequenceEqual(back.WholeChannel(0)) && block.WholeChannel(1).SequenceEqual(back.WholeChannel(1)));
        }
    }

    [Fact]
    public void StepBeyondTheWord_IsToldWhereverItStands()
    {
        foreach (var format in new[] { SampleFormat.UInt8, SampleFormat.Int16, SampleFormat.Int24 })
        {
            for (var at = 0; at < 20; at++)
            {
                foreach (var step in new[] { 1 << (format.ContainerBits - 1), -(1 << (format.ContainerBits - 1)) - 1 })
                {
                    var block = new PlanarBlock<int>(2, 20);
                    block.WholeChannel(0).Clear();
                    block.WholeChannel(1).Clear();
                    Assert.True(SampleEncoder.Encode(block, 0, 20, format, new byte[20 * 2 * format.BytesPerSample]));
                    block.WholeChannel(at % 2)[at] = step;
                    Assert.False(SampleEncoder.Encode(block, 0, 20, format, new byte[20 * 2 * format.BytesPerSample]));
                }
            }
        }
    }

    [Fact]
    public void WrittenAndRead_EverySampleAndUnknownChunkIsTheSame()
    {
        using var folder = new Athwart.Tests.Shared.TemporaryFolder();
        var chunk = Gen.Select(Gen.String[Gen.Char['a', 'z'], 4, 4], Gen.Byte.Array[0, 41], Gen.Bool);
        Gen.Select(Gen.Int[0, AllFormats.Length - 1].Select(i => AllFormats[i]), Gen.Int[1, 9], Gen.Int[0, 700], chunk.Array[0, 4], Gen.Int, Gen.Bool).Sample(
            (format, channels, frames, chunks, seed, rf64) =>
            {
                var bytes = new byte[channels * frames * format.BytesPerSample];
                new Random(seed).NextBytes(bytes);
                var path = folder.File($"{Guid.NewGuid():N}.wav");
                var options = new WaveWriterOptions { ChannelCount = channels, SampleRateHertz = 48_000, Format = format, Durable = false, Rf64Threshold = rf64 ? 0 : uint.MaxValue - 1, Extra = [.. chunks.Select(c => new RawChunk(c.Item1, c.Item2) { BeforeSamples = c.Item3 })] };
                using (var writer = WaveWriter.Create(path, options))
                {
                    writer.WriteBytes(bytes);
                    writer.Complete();
                }

                using var file = RecordingFile.Open(path);
                Assert.Equal(bytes, WaveBytes.AllBytes(file));
                Assert.Equal((format, channels, (long)frames), (file.Format, file.ChannelCount, file.FrameCount));
                Assert.Equal(rf64 ? ContainerKind.Rf64 : ContainerKind.Wave, file.Container);
                Assert.Empty(file.Findings);
                var expected = chunks.Where(c => c.Item3).Concat(chunks.Where(c => !c.Item3)).ToList();
                var found = file.Chunks.Where(c => c.Id is not ("JUNK" or "ds64" or "fmt " or "fact" or "data")).ToList();
                Assert.Equal(expected.Select(c => c.Item1), found.Select(c => c.Id));
                Assert.All(expected.Zip(found), p => Assert.Equal(p.First.Item2, file.ReadChunk(p.Second, 1000)));
                Rewrite(file, options, folder.File($"{Guid.NewGuid():N}.wav"), bytes);
            },
            iter: 150,
            threads: 1);
    }

    /// <summary>Reads planar and writes planar in blocks that do not fit anything.</summary>
    private static void Rewrite(RecordingFile file, WaveWriterOptions options, string path, byte[] bytes)
    {
        using (var writer = WaveWriter.Create(path, options))
        {
            var (steps, doubles) = (new PlanarBlock<int>(file.ChannelCount, 37), new PlanarBlock<double>(file.ChannelCount, 37));
            for (long at = 0; at < file.FrameCount; at += 37)
            {
                if (file.Format.IsInteger)
                {
                    file.Read(at, 37, steps);
                    writer.Write(steps);
                }
                else
                {
                    file.Read(at, 37, doubles);
                    writer.Write(doubles);
                }
            }

            writer.Complete();
        }

        using var back = RecordingFile.Open(path);
        // A random float may be a signalling NaN, which becomes a quiet one; sounds are compared as numbers.
        if (file.Format.IsInteger)
            Assert.Equal(bytes, WaveBytes.AllBytes(back));
        else
            Assert.Equal(WaveBytes.Samples(file), WaveBytes.Samples(back));
    }
}
