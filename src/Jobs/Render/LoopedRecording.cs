using Athwart.Recordings;
using Athwart.Signals.Loops;

namespace Athwart.Jobs.Render;

/// <summary>A take as it is heard when a cut of it goes round and round: the end of the cut is led over into its start, and after the end the cut comes again, however often.</summary>
/// <remarks>
/// Whatever is done to the pair afterwards is done to the loop. Integer words stay integer words: the frames of the cross-fade are
/// rounded to the nearest step, all others are as they were recorded. The same bits however it is read.
/// </remarks>
internal sealed class LoopedRecording : IRecording
{
    private readonly IRecording _source;
    private readonly long _from, _to;
    private readonly LoopSeam _seam;

    private LoopedRecording(IRecording source, RecipeSource cut, LoopSeam seam) => (_source, _from, _to, _seam) = (source, cut.FromFrame, cut.ToFrame, seam);

    public int ChannelCount => _source.ChannelCount;

    public int SampleRateHertz => _source.SampleRateHertz;

    public SampleFormat Format => _source.Format;

    /// <summary>It never ends.</summary>
    public long FrameCount => long.MaxValue;

    /// <summary>The recording itself when the recipe has no loop.</summary>
    public static IRecording Of(IRecording source, RecipeSource cut) => cut.Loop is { } loop ? new LoopedRecording(source, cut, new(loop.CrossfadeFrames, loop.Correlation)) : source;

    public int Read(long firstFrame, int frameCount, PlanarBlock<float> block)
    {
        var exact = new PlanarBlock<double>(ChannelCount, Math.Max(1, frameCount));
        var read = Read(firstFrame, frameCount, exact);
        block.Length = read;
        for (var c = 0; c < ChannelCount; c++)
        {
            for (var i = 0; i < read; i++)
                block.Channel(c)[i] = (float)exact.Channel(c)[i];
        }

        return read;
    }

    public int Read(long firstFrame, int frameCount, PlanarBlock<double> block) => Round(firstFrame, frameCount, block, ReadOnce);

    public int Read(long firstFrame, int frameCount, PlanarBlock<int> block) => Round(firstFrame, frameCount, block, ReadOnce);

    public int ReadBytes(long firstFrame, int frameCount, Span<byte> interleaved) => throw new NotSupportedException("The cross-fade of a loop has no bytes in any file.");

    public void Dispose() => _source.Dispose();

    // What lies after the cut's end is the cut again, and again.
    private int Round<T>(long firstFrame, int frameCount, PlanarBlock<T> block, Func<long, int, PlanarBlock<T>, int> read)
        where T : unmanaged
    {
        if (frameCount <= _to - InLoop(firstFrame))
            return read(InLoop(firstFrame), frameCount, block);
        var piece = new PlanarBlock<T>(ChannelCount, frameCount);
        block.Length = frameCount;
        for (var done = 0; done < frameCount; done += piece.Length)
        {
            var at = InLoop(firstFrame + done);
            var wanted = (int)Math.Min(frameCount - done, _to - at);
            if (read(at, wanted, piece) != wanted)
                throw Shorter();
            for (var c = 0; c < ChannelCount; c++)
                piece.Channel(c).CopyTo(block.Channel(c)[done..]);
        }

        return frameCount;
    }

    private long InLoop(long frame) => frame < _to ? frame : _from + ((frame - _to) % (_to - _from));

    private int ReadOnce(long firstFrame, int frameCount, PlanarBlock<double> block)
    {
        var read = _source.Read(firstFrame, frameCount, block);
        Blend(firstFrame, read, (frames, coming) => _source.Read(frames, coming.Capacity, coming), block);
        return read;
    }

    private int ReadOnce(long firstFrame, int frameCount, PlanarBlock<int> block)
    {
        var read = _source.Read(firstFrame, frameCount, block);
        var (lowest, highest) = (-Math.ScaleB(1, Format.ContainerBits - 1), Math.ScaleB(1, Format.ContainerBits - 1) - 1);
        var blended = new PlanarBlock<double>(ChannelCount, Math.Max(1, read)) { Length = read };
        for (var c = 0; c < ChannelCount; c++)
        {
            for (var i = 0; i < read; i++)
                blended.Channel(c)[i] = block.Channel(c)[i];
        }

        Blend(firstFrame, read, Steps, blended);
        for (var c = 0; c < ChannelCount; c++)
        {
            for (var i = 0; i < read; i++)
                block.Channel(c)[i] = (int)Math.Clamp(Math.Round(blended.Channel(c)[i]), lowest, highest);
        }

        return read;
    }

    private void Blend(long firstFrame, int read, Func<long, PlanarBlock<double>, int> source, PlanarBlock<double> block)
    {
        var start = _to - _seam.CrossfadeFrames;
        var (from, to) = (Math.Max(firstFrame, start), Math.Min(firstFrame + read, _to));
        if (from >= to)
            return;
        var coming = new PlanarBlock<double>(ChannelCount, (int)(to - from));
        if (source(from - _to + _from, coming) != to - from)
            throw Shorter();
        for (var c = 0; c < block.ChannelCount; c++)
            LoopCrossfade.Blend(block.Channel(c).Slice((int)(from - firstFrame), (int)(to - from)), coming.Channel(c), from - start, _seam);
    }

    private static RenderException Shorter() => new(RenderErrorKind.Source, "The recording became shorter while it was read. Copy it again.");

    private int Steps(long firstFrame, PlanarBlock<double> coming)
    {
        var words = new PlanarBlock<int>(ChannelCount, coming.Capacity);
        var read = _source.Read(firstFrame, coming.Capacity, words);
        coming.Length = read;
        for (var c = 0; c < ChannelCount; c++)
        {
            for (var i = 0; i < read; i++)
                coming.Channel(c)[i] = words.Channel(c)[i];
        }

        return read;
    }
}
