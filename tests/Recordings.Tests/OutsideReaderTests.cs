using System.Globalization;
using Athwart.Tests.Shared;
using NAudio.Wave;

namespace Athwart.Recordings.Tests;

/// <summary>What we write, read by libsndfile, ffprobe, sox and NAudio; what sox and ffmpeg write, read by us.</summary>
public sealed class OutsideReaderTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public static TheoryData<string> Formats => ["u8", "s16", "s24", "s32", "f32", "f64"];

    public void Dispose() => _folder.Dispose();

    private static SampleFormat Format(string name) => name switch
    {
        "u8" => SampleFormat.UInt8,
        "s16" => SampleFormat.Int16,
        "s24" => SampleFormat.Int24,
        "s32" => SampleFormat.Int32,
        "f32" => SampleFormat.Float32,
        _ => SampleFormat.Float64,
    };

    /// <summary>Frames of a slow ramp that every format holds exactly.</summary>
    private static double Ramp(int frame, int channel) => ((frame % 200) - 100) / 128.0 * (channel % 2 == 0 ? 1 : -0.5);

    private string Write(string format, int channels, int frames = 999, bool rf64 = false)
    {
        var path = _folder.File($"{format}-{channels}-{rf64}.wav");
        var options = new WaveWriterOptions { ChannelCount = channels, SampleRateHertz = 96_000, Format = Format(format), Rf64Threshold = rf64 ? 0 : uint.MaxValue - 1, Broadcast = new() { Description = "lock gate", TimeReference = 4_800 }, Info = [new("INAM", "lock gate")], Markers = [new(100, 50, "rush", "")] };
        using var writer = WaveWriter.Create(path, options);
        if (options.Format.IsInteger)
        {
            var block = new PlanarBlock<int>(channels, frames) { Length = frames };
            for (var c = 0; c < channels; c++)
            {
                for (var i = 0; i < frames; i++)
                    block.Channel(c)[i] = (int)Math.Floor(Ramp(i, c) * (1L << (options.Format.ContainerBits - 1)));
            }

            writer.Write(block);
        }
        else
        {
            var block = new PlanarBlock<double>(channels, frames) { Length = frames };
            for (var c = 0; c < channels; c++)
            {
                for (var i = 0; i < frames; i++)
                    block.Channel(c)[i] = Ramp(i, c);
            }

            writer.Write(block);
        }

        writer.Complete();
        return path;
    }

    private static string Run(string program, params string[] arguments)
    {
        var output = ReferenceProgram.Run(ReferenceProgram.Require(program), arguments);
        Assert.True(output.ExitCode == 0, output.Error + output.Output);
        return output.Output + output.Error;
    }

    [Theory]
    [MemberData(nameof(Formats))]
    public void Ffprobe_SeesChannelsRateLengthAndTags(string format)
    {
        foreach (var (channels, rf64) in format == "s24" ? new[] { (1, false), (2, true), (6, false) } : [(2, false)])
        {
            var text = Run("ffprobe", "-v", "error", "-show_entries", "stream=channels,sample_rate,duration_ts,codec_name:format_tags", "-of", "default=nw=1", Write(format, channels, rf64: rf64));
            Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"channels={channels}"), text, StringComparison.Ordinal);
            Assert.Contains("sample_rate=96000", text, StringComparison.Ordinal);
            Assert.Contains("duration_ts=999", text, StringComparison.Ordinal);
            Assert.Contains($"codec_name=pcm_{format}", text, StringComparison.Ordinal);
            Assert.Contains("time_reference=4800", text, StringComparison.Ordinal);
            Assert.Contains("title=lock gate", text, StringComparison.Ordinal);
        }
    }

    [Theory]
    [MemberData(nameof(Formats))]
    public void Libsndfile_SeesTheFramesAndNoComplaint(string format)
    {
        foreach (var rf64 in new[] { false, true })
        {
            var text = Run("sndfile-info", Write(format, 2, rf64: rf64));
            Assert.Matches(@"Frames\s*:\s*999\b", text);
            Assert.Matches(@"Description\s*:\s*lock gate", Run("sndfile-info", "--broadcast", Write(format, 1, rf64: rf64)));
            Assert.DoesNotContain("should be", text, StringComparison.OrdinalIgnoreCase);
            // In RF64 it knows neither fact nor cue, and says so with stars.
            if (!rf64)
                Assert.DoesNotContain("*** ", text, StringComparison.Ordinal);
        }
    }

    [Theory]
    [MemberData(nameof(Formats))]
    public void Sox_SeesTheFrames(string format)
    {
        foreach (var channels in new[] { 1, 2, 3 })
            Assert.Contains("= 999 samples", Run("sox", "--info", Write(format, channels)), StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Formats))]
    public void NAudio_ReadsTheSameSamples(string format)
    {
        foreach (var (channels, rf64) in new[] { (1, false), (2, false), (2, true), (5, false) })
        {
            var path = Write(format, channels, rf64: rf64);
            using var ours = RecordingFile.Open(path);
            using var theirs = new WaveFileReader(path);
            Assert.Equal((channels, 96_000), (theirs.WaveFormat.Channels, theirs.WaveFormat.SampleRate));
            var bytes = new byte[theirs.Length];
            Assert.Equal(bytes.Length, theirs.Read(bytes, 0, bytes.Length));
            Assert.Equal(WaveBytes.AllBytes(ours), bytes);
        }
    }

    [Theory]
    [MemberData(nameof(Formats))]
    public void Ffmpeg_DecodesTheSameWords(string format)
    {
        var path = Write(format, 2);
        var raw = _folder.File("raw");
        Run("ffmpeg", "-v", "error", "-y", "-i", path, "-f", format + (format == "u8" ? "" : "le"), raw);
        using var ours = RecordingFile.Open(path);
        Assert.Equal(File.ReadAllBytes(raw), WaveBytes.AllBytes(ours));
    }

    [Theory]
    [InlineData("-b", "8", "-e", "unsigned-integer")]
    [InlineData("-b", "16", "-e", "signed-integer")]
    [InlineData("-b", "24", "-e", "signed-integer")]
    [InlineData("-b", "32", "-e", "signed-integer")]
    [InlineData("-b", "32", "-e", "floating-point")]
    [InlineData("-b", "64", "-e", "floating-point")]
    public void FilesThatSoxWrites_ReadAsTheirSource(params string[] encoding)
    {
        var source = Write("s16", 3);
        var path = _folder.File("sox.wav");
        Run("sox", ["-D", source, .. encoding, path]);
        using var theirs = RecordingFile.Open(path);
        using var ours = RecordingFile.Open(source);
        Assert.Empty(theirs.Findings);
        // 8 bits hold the ramp in steps of 1/128 only.
        var tolerance = encoding[1] == "8" ? 1.0 / 128 : 0;
        AssertNear(WaveBytes.Samples(ours), WaveBytes.Samples(theirs), tolerance);
    }

    [Theory]
    [InlineData("wav", "never")]
    [InlineData("wav", "always")]
    public void FilesThatFfmpegWrites_ReadAsTheirSource(string extension, string rf64)
    {
        var source = Write("s24", 2);
        var path = _folder.File("ffmpeg." + extension);
        Run("ffmpeg", "-v", "error", "-y", "-i", source, "-c:a", "pcm_s24le", "-rf64", rf64, "-write_bext", "1", path);
        using var theirs = RecordingFile.Open(path);
        using var ours = RecordingFile.Open(source);
        Assert.Equal(rf64 == "always" ? ContainerKind.Rf64 : ContainerKind.Wave, theirs.Container);
        Assert.Equal(WaveBytes.AllBytes(ours), WaveBytes.AllBytes(theirs));
        Assert.Empty(theirs.Findings);
        Assert.NotNull(theirs.Broadcast);
    }

    [Fact]
    public void StreamThatFfmpegPipes_IsReadInSpiteOfItsUnknownSizes()
    {
        var source = Write("s24", 2);
        var path = _folder.File("piped.wav");
        Run("sh", "-c", $"'{ReferenceProgram.Require("ffmpeg")}' -v error -i '{source}' -c:a pcm_s24le -f wav - > '{path}'");
        using var theirs = RecordingFile.Open(path);
        using var ours = RecordingFile.Open(source);
        Assert.Equal(WaveBytes.AllBytes(ours), WaveBytes.AllBytes(theirs));
        Assert.Equal("header-not-finished", Assert.Single(theirs.Findings).Kind);
    }

    [Theory]
    [InlineData("flac", "16", ContainerKind.Flac)]
    [InlineData("flac", "24", ContainerKind.Flac)]
    [InlineData("aiff", "16", ContainerKind.Aiff)]
    [InlineData("aiff", "24", ContainerKind.Aiff)]
    [InlineData("aiff", "32", ContainerKind.Aiff)]
    [InlineData("aiff", "8", ContainerKind.Aiff)]
    public void FlacAndAiff_ReadAsTheirSource(string extension, string bits, ContainerKind container)
    {
        var source = Write("s16", 2);
        var path = _folder.File("sox." + extension);
        Run("sox", "-D", source, "-b", bits, path);
        using var theirs = RecordingFile.Open(path);
        using var ours = RecordingFile.Open(source);
        Assert.Equal((container, 999L, 2, 96_000), (theirs.Container, theirs.FrameCount, theirs.ChannelCount, theirs.SampleRateHertz));
        Assert.Equal(bits, theirs.Format.ContainerBits.ToString(CultureInfo.InvariantCulture));
        AssertNear(WaveBytes.Samples(ours), WaveBytes.Samples(theirs), bits == "8" ? 1.0 / 128 : 0);
        // In any order, and as words.
        var block = new PlanarBlock<int>(2, 10);
        Assert.Equal(10, theirs.Read(500, 10, block));
        var steps = WaveBytes.Steps(theirs);
        Assert.Equal(steps[1][500..510], block.Channel(1).ToArray());
        Assert.Equal(9, theirs.Read(990, 10, block));
        Assert.Equal(steps[0][990..], block.Channel(0).ToArray());
        var words = new byte[20 * theirs.Format.BytesPerSample];
        Assert.Equal(10, theirs.ReadBytes(3, 10, words));
        using var plain = new WaveBytes().Format(bits: theirs.Format.ContainerBits).Chunk("data", words).Open();
        Assert.Equal(steps[0][3..13], WaveBytes.Steps(plain)[0]);
    }

    // Real recordings: the CC0 samples of the Debian package sonic-pi-samples, 44.1 kHz stereo FLAC.
    [Theory]
    [InlineData("loop_amen")]
    [InlineData("vinyl_hiss")]
    public void RealFlac_ReadsAsSoxDecodesIt(string name)
    {
        var path = ReferenceProgram.RequirePath($"/usr/share/sonic-pi/samples/{name}.flac");
        var decoded = _folder.File("decoded.wav");
        Run("sox", "-D", path, decoded);
        using var ours = RecordingFile.Open(path);
        using var theirs = RecordingFile.Open(decoded);
        Assert.Equal(44_100, ours.SampleRateHertz);
        Assert.Equal(WaveBytes.AllBytes(theirs), WaveBytes.AllBytes(ours));
    }

    [Fact]
    public void FlacTexts_AreInfoTags()
    {
        var path = _folder.File("t.flac");
        Run("ffmpeg", "-v", "error", "-y", "-i", Write("s24", 2), "-metadata", "title=lift bridge", path);
        using var file = RecordingFile.Open(path);
        Assert.Contains(new InfoTag("INAM", "lift bridge"), file.Info);
    }

    [Fact]
    public void DamagedFlac_IsATypedError()
    {
        var path = _folder.File("t.flac");
        Run("sox", "-D", Write("s24", 2, 50_000), path);
        var bytes = File.ReadAllBytes(path);
        File.WriteAllBytes(path, bytes[..20]);
        Assert.Equal(RecordingErrorKind.Malformed, Assert.Throws<RecordingException>(() => RecordingFile.Open(path)).Kind);
        File.WriteAllBytes(path, bytes[..(bytes.Length / 2)]);
        using var file = RecordingFile.Open(path);
        Assert.Equal(RecordingErrorKind.Truncated, Assert.Throws<RecordingException>(() => WaveBytes.Steps(file)).Kind);
    }

    [Fact]
    public void MachineWithoutLibsndfile_IsToldWhichPackageToInstall()
    {
        Assert.Null(SoundLibrary.TryLoad(["libno-such-library.so.1"]));
        var error = SoundLibrary.Missing("card/gate.flac");
        Assert.Equal(RecordingErrorKind.LibraryMissing, error.Kind);
        Assert.Contains("libsndfile1", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Wave64OfFfmpeg_IsRefusedNicely()
    {
        var path = _folder.File("t.w64");
        Run("ffmpeg", "-v", "error", "-y", "-i", Write("s24", 2), path);
        var error = Assert.Throws<RecordingException>(() => RecordingFile.Open(path));
        Assert.Equal(RecordingErrorKind.Unsupported, error.Kind);
        Assert.Contains("RF64", error.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void SalvagedFile_IsSoundToOthers()
    {
        var bytes = File.ReadAllBytes(Write("s24", 2));
        var damaged = _folder.File("damaged.wav");
        File.WriteAllBytes(damaged, bytes[..^2000]);
        Salvager.Write(damaged, _folder.File("sound.wav"), default);
        Assert.Matches(@"Frames\s*:\s*\d{3}\b", Run("sndfile-info", _folder.File("sound.wav")));
        Run("sox", _folder.File("sound.wav"), "-n");
    }

    private static void AssertNear(double[][] expected, double[][] actual, double tolerance)
    {
        Assert.Equal(expected.Length, actual.Length);
        foreach (var (x, y) in expected.Zip(actual))
        {
            Assert.Equal(x.Length, y.Length);
            for (var i = 0; i < x.Length; i++)
                Assert.True(Math.Abs(x[i] - y[i]) <= tolerance, $"frame {i}: {x[i]} and {y[i]}");
        }
    }
}
