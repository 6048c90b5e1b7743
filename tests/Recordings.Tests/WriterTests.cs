using System.Buffers.Binary;
using Athwart.Tests.Shared;

namespace Athwart.Recordings.Tests;

/// <summary>What is written, byte for byte, and that nothing half-written ever has its final name.</summary>
public sealed class WriterTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private static WaveWriterOptions Options(int channels = 2, SampleFormat? format = null) => new() { ChannelCount = channels, SampleRateHertz = 48_000, Format = format ?? SampleFormat.Int24, Durable = false };

    private byte[] Write(WaveWriterOptions options, byte[] frames)
    {
        var path = _folder.File("t.wav");
        using (var writer = WaveWriter.Create(path, options with { Overwrite = true }))
        {
            writer.WriteBytes(frames);
            writer.Complete();
        }

        return File.ReadAllBytes(path);
    }

    [Fact]
    public void ASamplerChunk_IsTheseBytes_AndReadsBack()
    {
        var notes = new SamplerNotes { UnityNote = 60, SamplePeriodNanoseconds = 20833, Loops = [new(1, 0, 0, 1, 0)] };
        var bytes = Write(Options() with { Sampler = notes }, WaveBytes.Frames24(2));
        byte[] expected =
        [
            .. "smpl"u8, 60, 0, 0, 0,
            .. new byte[8], 0x61, 0x51, 0, 0, 60, 0, 0, 0, .. new byte[12], 1, 0, 0, 0, .. new byte[4],
            1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
        ];
        Assert.Equal(expected, bytes[^expected.Length..]);
        using var file = RecordingFile.Open(_folder.File("t.wav"));
        Assert.Equal(notes.Loops, file.Sampler!.Loops);
    }

    [Fact]
    public void PlainFile_IsTheseBytes()
    {
        byte[] expected =
        [
            .. "RIFF"u8, 84, 0, 0, 0, .. "WAVE"u8,
            .. "JUNK"u8, 28, 0, 0, 0, .. new byte[28],
            .. "fmt "u8, 16, 0, 0, 0, 1, 0, 2, 0, 0x80, 0xBB, 0, 0, 0, 0x65, 4, 0, 6, 0, 24, 0,
            .. "data"u8, 12, 0, 0, 0, 1, 0, 0, 255, 255, 255, 2, 0, 0, 254, 255, 255,
        ];
        Assert.Equal(expected, Write(Options(), WaveBytes.Frames24(2)));
    }

    [Fact]
    public void OddSamples_GetAPadByteThatNoSizeButTheRiffsCounts()
    {
        var bytes = Write(Options(1) with { Markers = [new(1, 0, "x", "")] }, [1, 2, 3]);
        Assert.Equal(3u, BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(76)));
        Assert.Equal([1, 2, 3, 0, .. "cue "u8], bytes[80..88]);
        Assert.Equal((uint)bytes.Length - 8, BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(4)));
    }

    [Fact]
    public void FilePastItsThreshold_BecomesRf64InTheReservedPlace()
    {
        var plain = Write(Options(), WaveBytes.Frames24(4));
        var large = Write(Options() with { Rf64Threshold = plain.Length - 9 }, WaveBytes.Frames24(4));
        Assert.Equal("RF64"u8.ToArray(), large[..4]);
        Assert.Equal([255, 255, 255, 255, .. "WAVEds64"u8, 28, 0, 0, 0], large[4..20]);
        Assert.Equal(plain.Length - 8L, BinaryPrimitives.ReadInt64LittleEndian(large.AsSpan(20)));
        Assert.Equal((24L, 4L), (BinaryPrimitives.ReadInt64LittleEndian(large.AsSpan(28)), BinaryPrimitives.ReadInt64LittleEndian(large.AsSpan(36))));
        Assert.Equal(plain.Length, large.Length);
        Assert.Equal("RIFF"u8.ToArray(), Write(Options() with { Rf64Threshold = plain.Length - 8 }, WaveBytes.Frames24(4))[..4]);
    }

    [Fact]
    public void FloatFile_HasItsFactChunk()
    {
        using var file = WaveBytes.Open(Write(Options(1, SampleFormat.Float32), new byte[40]));
        Assert.Equal([10, 0, 0, 0], file.ReadChunk(file.Chunks.Single(c => c.Id == "fact"), 4));
    }

    [Fact]
    public void UntilItIsComplete_TheTargetDoesNotExist()
    {
        var path = _folder.File("gate.wav");
        using (var writer = WaveWriter.Create(path, Options()))
        {
            writer.WriteBytes(new byte[6 * 300_000]);
            Assert.False(File.Exists(path));
            Assert.StartsWith(".athwart-", Path.GetFileName(Assert.Single(Directory.GetFiles(_folder.Path))), StringComparison.Ordinal);
        }

        Assert.Empty(Directory.GetFiles(_folder.Path));
    }

    [Fact]
    public void ExistingFile_IsKeptUnlessToldOtherwise()
    {
        var path = _folder.File("gate.wav");
        File.WriteAllText(path, "kept");
        Assert.Throws<IOException>(() => WaveWriter.Create(path, Options()));
        using (var writer = WaveWriter.Create(path, Options() with { Overwrite = true }))
            Assert.Equal("kept", File.ReadAllText(path));
        using (var writer = WaveWriter.Create(path, Options() with { Overwrite = true, Durable = true }))
            writer.Complete();
        using var file = RecordingFile.Open(path);
        Assert.Equal(0, file.FrameCount);
    }

    [Fact]
    public void TargetThatAppearsMeanwhile_IsKept()
    {
        var path = _folder.File("gate.wav");
        using (var writer = WaveWriter.Create(path, Options()))
        {
            File.WriteAllText(path, "kept");
            Assert.Throws<IOException>(writer.Complete);
        }

        Assert.Equal([path], Directory.GetFiles(_folder.Path));
        Assert.Equal("kept", File.ReadAllText(path));
    }

    [Fact]
    public void StepBeyondTheWord_IsRefusedAndNothingIsLeft()
    {
        var block = new PlanarBlock<int>(2, 5) { Length = 5 };
        block.Channel(0).Clear();
        block.Channel(1).Fill(1 << 23);
        using (var writer = WaveWriter.Create(_folder.File("x.wav"), Options()))
            Assert.Throws<ArgumentException>(() => writer.Write(block));
        Assert.Empty(Directory.GetFiles(_folder.Path));
    }

    [Fact]
    public void WhatCannotBeWritten_IsRefusedAtOnce()
    {
        var path = _folder.File("x.wav");
        foreach (var wrong in new[] { Options(0), Options(65), Options() with { SampleRateHertz = 7999 }, Options(1, new(SampleEncoding.Float, 16, 16)), Options() with { Extra = [new("data", default)] }, Options() with { Info = [new("toolong", "")] }, Options() with { Markers = [new(1L << 32, 0, "", "")] } })
            Assert.Throws<ArgumentException>(() => WaveWriter.Create(path, wrong));
        using var writer = WaveWriter.Create(path, Options());
        Assert.Throws<InvalidOperationException>(() => writer.Write(new PlanarBlock<float>(2, 1)));
        Assert.Throws<ArgumentException>(() => writer.WriteBytes(new byte[5]));
        Assert.Throws<ArgumentException>(() => writer.Write(new PlanarBlock<int>(1, 1)));
        writer.Complete();
        Assert.Throws<InvalidOperationException>(writer.Complete);
    }

    [Fact]
    public void BlocksOfAnySize_WriteTheSameBytes()
    {
        var random = new Random(5);
        var (left, right) = (new int[700_001], new int[700_001]);
        for (var i = 0; i < left.Length; i++)
            (left[i], right[i]) = (random.Next(-1 << 23, 1 << 23), random.Next(-1 << 23, 1 << 23));
        var files = new[] { 700_001, 65_536, 4_099 }.Select(size =>
        {
            var path = _folder.File($"{size}.wav");
            using var writer = WaveWriter.Create(path, Options());
            var block = new PlanarBlock<int>(2, size);
            for (var at = 0; at < left.Length; at += size)
            {
                block.Length = Math.Min(size, left.Length - at);
                left.AsSpan(at, block.Length).CopyTo(block.Channel(0));
                right.AsSpan(at, block.Length).CopyTo(block.Channel(1));
                writer.Write(block);
            }

            Assert.Equal(left.Length, writer.FramesWritten);
            writer.Complete();
            return File.ReadAllBytes(path);
        }).ToList();
        Assert.All(files, f => Assert.Equal(files[0], f));
        using var file = WaveBytes.Open(files[0]);
        Assert.Equal(left, WaveBytes.Steps(file)[0]);
        Assert.Equal(right, WaveBytes.Steps(file)[1]);
    }
}
