using Athwart.Jobs.Render;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.Shape;

/// <summary>Hands the treated pair of a rendering to its chunks. Every part of the work goes through the chunks in order; different parts may be at different chunks at once.</summary>
/// <remarks>Part 0 reads, part n is step n, and the last part keeps what neighbouring chunks share where the rate is converted.</remarks>
internal sealed class TreatedFeed
{
    private readonly RenderPlan _plan;
    private readonly TreatedChain _chain;
    private readonly TreatedPair _pair;
    private readonly SharedFrames? _shared;
    private long _read;

    public TreatedFeed(IRecording source, RenderPlan plan)
    {
        _plan = plan;
        _chain = new(
            () => new(source, plan.MidChannel, plan.HasSide ? plan.SideChannel : null, plan.InvertSide),
            plan.Steps,
            new(plan.Source.SampleRateHertz, plan.SideGain, source.FrameCount),
            plan.Source.FromFrame,
            plan.Source.ToFrame - plan.Source.FromFrame);
        _pair = _chain.Pair;
        _shared = plan.Converter is null ? null : new(plan.InputCapacity);
    }

    /// <summary>Parts of the work on one chunk.</summary>
    public int Parts => 1 + _pair.StageCount + (_shared is null ? 0 : 1);

    /// <summary>Does one part of the work on one chunk.</summary>
    /// <param name="part">0 to <see cref="Parts"/> − 1; for one chunk in this order.</param>
    /// <param name="fresh">The frames of the cut that this chunk is the first to need; they are read by part 0.</param>
    /// <param name="chunk">The chunk; each part sees them in order.</param>
    /// <param name="pair">Receives, in the last part, all frames the chunk needs; the same block as <paramref name="fresh"/> without a change of rate.</param>
    public void Run(int part, PlanarBlock<double> fresh, RenderChunk chunk, PlanarBlock<double> pair)
    {
        if (part == 0)
            Read(fresh, chunk);
        else if (part <= _pair.StageCount)
            _pair.RunStage(part - 1, fresh.Channel(0), fresh.Channel(1));
        else
            _shared!.Slide(fresh, _plan.InputRange(chunk), pair);
    }

    /// <summary>What the recordist should know of the samples that were read.</summary>
    public IReadOnlyList<Finding> Findings => _chain.Findings;

    private void Read(PlanarBlock<double> fresh, RenderChunk chunk)
    {
        if (chunk.First == 0)
        {
            _pair.Begin(_plan.Source.FromFrame);
            _read = 0;
        }

        var to = _plan.InputRange(chunk).To;
        fresh.Length = (int)Math.Max(0, to - _read);
        _pair.ReadSource(fresh.Channel(0), fresh.Channel(1));
        _read += fresh.Length;
    }

    /// <summary>The last frames, which the next chunk needs again.</summary>
    private sealed class SharedFrames(int capacity)
    {
        private readonly PlanarBlock<double> _kept = new(2, capacity);
        private long _from;

        public void Slide(PlanarBlock<double> fresh, (long From, long To) wanted, PlanarBlock<double> pair)
        {
            pair.Length = (int)(wanted.To - wanted.From);
            var again = (int)(_from + _kept.Length - wanted.From);
            for (var c = 0; c < 2; c++)
            {
                _kept.Channel(c)[^again..].CopyTo(pair.Channel(c));
                fresh.Channel(c).CopyTo(pair.Channel(c)[again..]);
            }

            _from = wanted.From;
            _kept.Length = pair.Length;
            for (var c = 0; c < 2; c++)
                pair.Channel(c).CopyTo(_kept.Channel(c));
        }
    }
}
