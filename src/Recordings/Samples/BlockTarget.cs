namespace Athwart.Recordings;

/// <summary>A place inside a block: where a part of a take puts its channels and frames.</summary>
internal readonly struct BlockTarget<T>(PlanarBlock<T> block, int firstChannel, int firstFrame)
    where T : unmanaged
{
    public Span<T> Plane(int channel, int frames) => block.WholeChannel(firstChannel + channel).Slice(firstFrame, frames);

    public BlockTarget<T> Skip(int frames) => new(block, firstChannel, firstFrame + frames);
}
