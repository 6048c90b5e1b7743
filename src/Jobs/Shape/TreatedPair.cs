using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape;

/// <summary>Mid and side after a chain of steps: begins early enough for every step to settle, and feeds each as far ahead as it looks.</summary>
/// <remarks>
/// The frames that come out are numbered as those that went in: what a step delays by looking ahead is made good. From one
/// <see cref="Begin"/> the bits are the same in blocks of any length. Begun elsewhere they are the same within what
/// <see cref="IPairStage.SettlingFrames"/> promises; a rendering therefore always begins at its cut.
/// </remarks>
internal sealed class TreatedPair : IPairStream
{
    /// <summary>Frames discarded at once while the steps settle.</summary>
    private const int SettlingBlock = 4096;

    private readonly IPairStream _source;
    private readonly IReadOnlyList<IPairStage> _stages;

    public TreatedPair(IPairStream source, IReadOnlyList<IPairStage> stages)
    {
        _source = source;
        _stages = SectionStage.Join(stages);
        LatencyFrames = _stages.Sum(s => (long)s.LatencyFrames);
        SettlingFrames = _stages.Sum(s => s.SettlingFrames);
    }

    /// <inheritdoc/>
    public long Earliest => _source.Earliest;

    /// <summary>How many frames later than it went in a frame comes out of the last step.</summary>
    public long LatencyFrames { get; }

    /// <summary>How many frames earlier the chain begins than the first that is wanted.</summary>
    public long SettlingFrames { get; }

    /// <summary>The steps, neighbours that are filters of sections as one; one may be run ahead of the next, each in the order of the frames.</summary>
    public int StageCount => _stages.Count;

    /// <inheritdoc/>
    public void Begin(long frame)
    {
        var from = Math.Min(frame, Math.Max(_source.Earliest, frame - SettlingFrames));
        _source.Begin(from);
        var entering = from;
        foreach (var stage in _stages)
        {
            stage.Begin(entering);
            entering -= stage.LatencyFrames;
        }

        Discard(frame - entering);
    }

    /// <inheritdoc/>
    public void Read(Span<double> mid, Span<double> side)
    {
        ReadSource(mid, side);
        for (var i = 0; i < _stages.Count; i++)
            RunStage(i, mid, side);
    }

    /// <summary>The first part of a <see cref="Read"/>: the next frames as they enter the first step.</summary>
    public void ReadSource(Span<double> mid, Span<double> side) => _source.Read(mid, side);

    /// <summary>One further part of a <see cref="Read"/>: the frames of the part before go through one step.</summary>
    public void RunStage(int stage, Span<double> mid, Span<double> side) => _stages[stage].Process(mid, side);

    private void Discard(long frames)
    {
        if (frames == 0)
            return;
        double[] mid = new double[SettlingBlock], side = new double[SettlingBlock];
        for (; frames > 0; frames -= SettlingBlock)
        {
            var count = (int)Math.Min(SettlingBlock, frames);
            Read(mid.AsSpan(0, count), side.AsSpan(0, count));
        }
    }
}
