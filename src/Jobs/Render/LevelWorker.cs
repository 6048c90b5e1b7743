using Athwart.Jobs.Shape;
using Athwart.Recordings;

namespace Athwart.Jobs.Render;

/// <summary>Computes chunks in double precision for measuring.</summary>
internal sealed class LevelWorker(IRecording source, RenderPlan plan)
{
    private readonly ChunkWorker _worker = new(source, plan);

    /// <summary>The last chunk.</summary>
    public PlanarBlock<double>? Samples { get; private set; }

    /// <summary>Its highest magnitude.</summary>
    public double Peak { get; private set; }

    /// <summary>One part of the work that goes before.</summary>
    public void Treat(TreatedFeed feed, int part, RenderChunk chunk) => _worker.Treat(feed, part, chunk);

    public void Compute(RenderChunk chunk)
    {
        Samples = _worker.Compute(chunk);
        Peak = 0;
        for (var c = 0; c < plan.OutputChannels; c++)
        {
            foreach (var sample in Samples.Channel(c))
                Peak = Math.Max(Peak, Math.Abs(sample));
        }
    }
}

/// <summary>Collects the levels of chunks in order.</summary>
internal sealed class LevelListener(RenderPlan plan, IProgrammeMeter? meter)
{
    private readonly float[] _left = new float[meter is null ? 0 : RenderChunk.Frames];
    private readonly float[] _right = new float[meter is null ? 0 : RenderChunk.Frames];
    private double _peak;

    public void Add(LevelWorker worker, RenderChunk chunk)
    {
        _peak = Math.Max(_peak, worker.Peak);
        if (meter is null)
            return;
        Span<double> left = worker.Samples!.Channel(0), right = worker.Samples.Channel(plan.OutputChannels - 1);
        for (var n = 0; n < chunk.Count; n++)
            (_left[n], _right[n]) = ((float)left[n], (float)right[n]);
        meter.Add(_left.AsSpan(0, chunk.Count), _right.AsSpan(0, chunk.Count));
    }

    public ProgrammeLevels Complete()
    {
        var (truePeak, loudness) = meter?.Complete() ?? (double.NaN, double.NaN);
        return new(_peak, truePeak, loudness);
    }
}
