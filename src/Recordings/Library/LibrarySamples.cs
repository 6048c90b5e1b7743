using System.Buffers;
using System.Runtime.CompilerServices;

namespace Athwart.Recordings;

/// <summary>Samples of a FLAC or AIFF file. The library has one position a file, so reads take turns.</summary>
internal sealed class LibrarySamples(SoundLibrary library, nint handle, string path) : SampleSource
{
    private const int FramesPerRead = 8192;

    /// <summary>sndfile.h: SF_STR_TITLE … with the INFO name of the same meaning.</summary>
    private static readonly (int Kind, string Id)[] Texts = [(1, "INAM"), (2, "ICOP"), (3, "ISFT"), (4, "IART"), (5, "ICMT"), (6, "ICRD"), (7, "IPRD"), (16, "IGNR")];

    private readonly Lock _turn = new();
    private nint _handle = handle;
    private long _position;

    /// <summary>The texts of the file as INFO tags.</summary>
    public IReadOnlyList<InfoTag> Info => [.. Texts.Select(t => (t.Id, Text: library.Text(_handle, t.Kind))).Where(t => !string.IsNullOrEmpty(t.Text)).Select(t => new InfoTag(t.Id, t.Text!))];

    /// <summary>Opens a file that was recognised as FLAC or AIFF.</summary>
    public static LibrarySamples Open(string path, ContainerKind container)
    {
        var library = SoundLibrary.Require(path);
        var handle = library.Open(path, out var info, out var error);
        if (handle == 0)
            throw new RecordingException(RecordingErrorKind.Malformed, path, $"libsndfile refuses this {container} file: {error.Trim().TrimEnd('.')}", "Copy the file again; if it stays so it is damaged");
        if (FormatOf(info.Format) is not { } format || info.Channels is < 1 or > 64 || info.SampleRate is < 8_000 or > 768_000 || info.Frames is < 0 or long.MaxValue)
        {
            library.Close(handle);
            throw new RecordingException(RecordingErrorKind.Unsupported, path, $"integer and float samples, 1 to 64 channels, 8 to 768 kHz and a known length are read; this file has {info.Channels} channels at {info.SampleRate} Hz, coding 0x{info.Format & 0xFFFF:X4}", "Convert it to WAVE");
        }

        return new(library, handle, path) { ChannelCount = info.Channels, SampleRateHertz = info.SampleRate, Format = format, FrameCount = info.Frames };
    }

    public override int Read(long firstFrame, int frameCount, BlockTarget<float> target) => Decode(firstFrame, frameCount, target);

    public override int Read(long firstFrame, int frameCount, BlockTarget<double> target) => Decode(firstFrame, frameCount, target);

    public override int Read(long firstFrame, int frameCount, BlockTarget<int> target) => Decode(firstFrame, frameCount, target);

    public override int ReadBytes(long firstFrame, int frameCount, Span<byte> interleaved)
    {
        var frames = Within(firstFrame, frameCount);
        if (Format.IsInteger)
        {
            var block = new PlanarBlock<int>(ChannelCount, frames);
            Decode(firstFrame, frames, new BlockTarget<int>(block, 0, 0));
            SampleEncoder.Encode(block, 0, frames, Format, interleaved);
        }
        else
        {
            var block = new PlanarBlock<double>(ChannelCount, frames);
            Decode(firstFrame, frames, new BlockTarget<double>(block, 0, 0));
            SampleEncoder.Encode(block, 0, frames, Format, interleaved);
        }

        return frames;
    }

    public override void Dispose()
    {
        lock (_turn)
        {
            if (_handle != 0)
                library.Close(_handle);
            _handle = 0;
        }

        base.Dispose();
    }

    /// <summary>The sub-formats of sndfile.h that are plain samples.</summary>
    private static SampleFormat? FormatOf(int format) => (format & 0xFFFF) switch
    {
        1 or 5 => SampleFormat.UInt8,
        2 => SampleFormat.Int16,
        3 => SampleFormat.Int24,
        4 => SampleFormat.Int32,
        6 => SampleFormat.Float32,
        7 => SampleFormat.Float64,
        _ => null,
    };

    private int Decode<T>(long firstFrame, int frameCount, BlockTarget<T> target)
        where T : unmanaged
    {
        var frames = Within(firstFrame, frameCount);
        lock (_turn)
        {
            ObjectDisposedException.ThrowIf(_handle == 0, this);
            for (var done = 0; done < frames; done += FramesPerRead)
            {
                var count = Math.Min(FramesPerRead, frames - done);
                if (Format.IsInteger)
                    Integers(firstFrame + done, count, target.Skip(done));
                else
                    Floats(firstFrame + done, count, target.Skip(done));
            }
        }

        return frames;
    }

    private void Integers<T>(long firstFrame, int frames, BlockTarget<T> target)
        where T : unmanaged
    {
        var buffer = ArrayPool<int>.Shared.Rent(frames * ChannelCount);
        GoTo(firstFrame);
        Arrived(firstFrame, frames, library.Read(_handle, buffer, frames));
        var (spare, scale) = (32 - Format.ContainerBits, 1.0 / (1L << (Format.ContainerBits - 1)));
        for (var c = 0; c < ChannelCount; c++)
        {
            var plane = target.Plane(c, frames);
            for (var i = 0; i < plane.Length; i++)
                plane[i] = SampleDecoder.FromStep<T>(buffer[(i * ChannelCount) + c] >> spare, scale);
        }

        ArrayPool<int>.Shared.Return(buffer);
    }

    private void Floats<T>(long firstFrame, int frames, BlockTarget<T> target)
        where T : unmanaged
    {
        var buffer = ArrayPool<double>.Shared.Rent(frames * ChannelCount);
        GoTo(firstFrame);
        Arrived(firstFrame, frames, library.Read(_handle, buffer, frames));
        for (var c = 0; c < ChannelCount; c++)
        {
            var plane = target.Plane(c, frames);
            for (var i = 0; i < plane.Length; i++)
            {
                var sample = buffer[(i * ChannelCount) + c];
                var single = (float)sample;
                plane[i] = typeof(T) == typeof(float) ? Unsafe.As<float, T>(ref single) : Unsafe.As<double, T>(ref sample);
            }
        }

        ArrayPool<double>.Shared.Return(buffer);
    }

    private void GoTo(long frame)
    {
        if (_position != frame && !library.Seek(_handle, frame))
            throw new RecordingException(RecordingErrorKind.Malformed, path, $"libsndfile cannot reach frame {frame}", "Copy the file again; if it stays so it is damaged");
    }

    private void Arrived(long firstFrame, int wanted, long frames)
    {
        _position = frames == wanted ? firstFrame + frames : -1;
        if (frames != wanted)
            throw new RecordingException(RecordingErrorKind.Truncated, path, $"the coded sound ends or breaks at frame {firstFrame + Math.Max(0, frames)}", "Copy the file again; if it stays so it is damaged");
    }
}
