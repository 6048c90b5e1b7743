using Athwart.Recordings;
using Athwart.Signals.Dither;

namespace Athwart.Jobs.Shape;

/// <summary>The mid and the side of a take as they were recorded, in double precision; silence before its start and after its end.</summary>
/// <remarks>Samples that are infinite or not numbers become zero and are counted: a filter would carry one of them through the rest of the take.</remarks>
internal sealed class TakePair : IPairStream
{
    /// <summary>Frames read at once; 256 KiB of a pair in 24 bits, and small enough to stay in a processor's cache.</summary>
    private const int BlockFrames = 12_288;

    private readonly IRecording _take;
    private readonly int _midChannel;
    private readonly int? _sideChannel;
    private readonly bool _invertSide;
    private readonly PlanarBlock<int>? _words;
    private readonly PlanarBlock<double>? _floats;
    private long _next;

    /// <param name="take">The take; it may be read by others at the same time.</param>
    /// <param name="midChannel">The channel of the mid, from 0.</param>
    /// <param name="sideChannel">The channel of the side, from 0; null where there is none, and the side is silence.</param>
    /// <param name="invertSide">Whether the side's positive lobe pointed right.</param>
    public TakePair(IRecording take, int midChannel, int? sideChannel, bool invertSide)
    {
        _take = take;
        _midChannel = midChannel;
        _sideChannel = sideChannel;
        _invertSide = invertSide;
        if (take.Format.IsInteger)
            _words = new(take.ChannelCount, BlockFrames);
        else
            _floats = new(take.ChannelCount, BlockFrames);
    }

    /// <inheritdoc/>
    public long Earliest => 0;

    /// <summary>Samples so far that were no finite numbers.</summary>
    public long NotFinite { get; private set; }

    /// <summary>The frame of the first of them.</summary>
    public long FirstNotFinite { get; private set; } = -1;

    /// <inheritdoc/>
    public void Begin(long frame) => _next = frame;

    /// <inheritdoc/>
    public void Read(Span<double> mid, Span<double> side)
    {
        for (var done = 0; done < mid.Length;)
        {
            var count = Math.Min(BlockFrames, mid.Length - done);
            count = _next < 0 ? (int)Math.Min(count, -_next) : count;
            ReadBlock(mid.Slice(done, count), side.Slice(done, count));
            done += count;
            _next += count;
        }
    }

    private void ReadBlock(Span<double> mid, Span<double> side)
    {
        var there = _next < 0 ? 0 : (int)Math.Clamp(_take.FrameCount - _next, 0, mid.Length);
        mid[there..].Clear();
        side[there..].Clear();
        if (there == 0)
            return;
        mid = mid[..there];
        side = side[..there];
        if (_words is not null)
            ReadSteps(mid, side);
        else
            ReadFloats(mid, side);
        if (!_invertSide)
            return;
        foreach (ref var sample in side)
            sample = -sample;
    }

    private void ReadSteps(Span<double> mid, Span<double> side)
    {
        Require(_take.Read(_next, mid.Length, _words!), mid.Length);
        Quantizer.ToSamples(_words!.Channel(_midChannel), _take.Format.ContainerBits, mid);
        if (_sideChannel is { } channel)
            Quantizer.ToSamples(_words.Channel(channel), _take.Format.ContainerBits, side);
        else
            side.Clear();
    }

    private void ReadFloats(Span<double> mid, Span<double> side)
    {
        Require(_take.Read(_next, mid.Length, _floats!), mid.Length);
        _floats!.Channel(_midChannel).CopyTo(mid);
        if (_sideChannel is { } channel)
            _floats.Channel(channel).CopyTo(side);
        else
            side.Clear();
        Finite(mid);
        Finite(side);
    }

    private void Finite(Span<double> samples)
    {
        for (var n = 0; n < samples.Length; n++)
        {
            if (double.IsFinite(samples[n]))
                continue;
            samples[n] = 0;
            NotFinite++;
            FirstNotFinite = FirstNotFinite < 0 ? _next + n : Math.Min(FirstNotFinite, _next + n);
        }
    }

    private static void Require(int read, int wanted)
    {
        if (read != wanted)
            throw new Render.RenderException(Render.RenderErrorKind.Source, $"The recording gave {read} frames where {wanted} were wanted; it became shorter while it was read. Copy it again.");
    }
}
