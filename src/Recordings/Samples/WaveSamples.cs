using System.Buffers;

namespace Athwart.Recordings;

/// <summary>Samples that lie in a file as plain words.</summary>
internal sealed class WaveSamples(ByteSource bytes, long dataOffset) : SampleSource
{
    /// <summary>Large enough to make the system call cheap, small enough to stay in the second-level cache.</summary>
    internal const int BufferBytes = 256 * 1024;

    private int FrameBytes => ChannelCount * Format.BytesPerSample;

    public override int Read(long firstFrame, int frameCount, BlockTarget<float> target) => Decode(firstFrame, frameCount, target);

    public override int Read(long firstFrame, int frameCount, BlockTarget<double> target) => Decode(firstFrame, frameCount, target);

    public override int Read(long firstFrame, int frameCount, BlockTarget<int> target) => Decode(firstFrame, frameCount, target);

    public override int ReadBytes(long firstFrame, int frameCount, Span<byte> interleaved)
    {
        var frames = Within(firstFrame, frameCount);
        if (frames > 0)
            Fill(firstFrame, interleaved[..(frames * FrameBytes)]);
        return frames;
    }

    private int Decode<T>(long firstFrame, int frameCount, BlockTarget<T> target)
        where T : unmanaged
    {
        var frames = Within(firstFrame, frameCount);
        var perRead = Math.Max(1, BufferBytes / FrameBytes);
        var buffer = ArrayPool<byte>.Shared.Rent(Math.Min(frames, perRead) * FrameBytes);
        try
        {
            for (var done = 0; done < frames; done += perRead)
            {
                var count = Math.Min(perRead, frames - done);
                var words = buffer.AsSpan(0, count * FrameBytes);
                Fill(firstFrame + done, words);
                SampleDecoder.Decode(words, Format, ChannelCount, count, target.Skip(done));
            }
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
        }

        return frames;
    }

    private void Fill(long firstFrame, Span<byte> words)
    {
        var offset = dataOffset + (firstFrame * FrameBytes);
        if (bytes.Read(offset, words) != words.Length)
            throw new RecordingException(RecordingErrorKind.Truncated, bytes.Path, "the file became shorter while it was being read", "Check the disk or card and start again", offset, "data");
    }
}
