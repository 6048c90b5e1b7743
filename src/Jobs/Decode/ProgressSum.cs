using Athwart.Jobs.Render;

namespace Athwart.Jobs.Decode;

/// <summary>Adds up the progress of several renders.</summary>
internal sealed class ProgressSum(IProgress<RenderProgress>? sum, int parts)
{
    private readonly RenderProgress[] _parts = new RenderProgress[parts];
    private readonly Lock _lock = new();

    /// <summary>The progress of one render; null when nobody listens.</summary>
    public IProgress<RenderProgress>? Part(int index) => sum is null ? null : new One(this, index);

    private void Report(int index, RenderProgress value)
    {
        lock (_lock)
        {
            _parts[index] = value;
            sum!.Report(new(_parts.Sum(p => p.FramesDone), _parts.Sum(p => p.FramesTotal)));
        }
    }

    private sealed class One(ProgressSum owner, int index) : IProgress<RenderProgress>
    {
        public void Report(RenderProgress value) => owner.Report(index, value);
    }
}
