namespace Athwart.Recordings;

/// <summary>Where the samples of one file come from; checked and bounded arguments only.</summary>
internal abstract class SampleSource : IDisposable
{
    public required int ChannelCount { get; init; }

    public required int SampleRateHertz { get; init; }

    public required SampleFormat Format { get; init; }

    public required long FrameCount { get; init; }

    public abstract int Read(long firstFrame, int frameCount, BlockTarget<float> target);

    public abstract int Read(long firstFrame, int frameCount, BlockTarget<double> target);

    public abstract int Read(long firstFrame, int frameCount, BlockTarget<int> target);

    public abstract int ReadBytes(long firstFrame, int frameCount, Span<byte> interleaved);

    /// <summary>How many of the wanted frames there are.</summary>
    protected int Within(long firstFrame, int frameCount) => (int)Math.Clamp(FrameCount - firstFrame, 0, frameCount);

    /// <inheritdoc/>
    public virtual void Dispose()
    {
    }
}

/// <summary>The checks that every recording makes before it reads.</summary>
internal static class ReadArguments
{
    public static void Check<T>(IRecording recording, long firstFrame, int frameCount, PlanarBlock<T> block)
        where T : unmanaged
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentOutOfRangeException.ThrowIfNegative(firstFrame);
        ArgumentOutOfRangeException.ThrowIfNegative(frameCount);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(frameCount, block.Capacity);
        if (block.ChannelCount != recording.ChannelCount)
            throw new ArgumentException($"the block has {block.ChannelCount} channels, the recording {recording.ChannelCount}", nameof(block));
        if (typeof(T) == typeof(int) && !recording.Format.IsInteger)
            throw new InvalidOperationException($"{recording.Format} samples are no whole steps; read them as float or double");
    }

    public static void Check(IRecording recording, long firstFrame, int frameCount, Span<byte> interleaved)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(firstFrame);
        ArgumentOutOfRangeException.ThrowIfNegative(frameCount);
        var needed = (long)frameCount * recording.ChannelCount * recording.Format.BytesPerSample;
        if (interleaved.Length < needed)
            throw new ArgumentException($"{frameCount} frames need {needed} bytes, there are {interleaved.Length}", nameof(interleaved));
    }
}
