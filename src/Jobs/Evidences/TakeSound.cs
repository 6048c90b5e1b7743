using Athwart.Jobs.Roles;
using Athwart.Recordings;

namespace Athwart.Jobs.Evidences;

/// <summary>The pair of a take, read again from its files where a picture needs it.</summary>
internal sealed class TakeSound : IPairSound, IDisposable
{
    private const int BlockFrames = 1 << 15;
    private readonly Take _take;
    private readonly RoleAssignment _roles;

    public TakeSound(TakeDescription description, RoleAssignment roles) => (_take, _roles) = (description.Open(), roles);

    public int SampleRateHertz => _take.SampleRateHertz;

    public long Frames => _take.FrameCount;

    public bool HasSide => _roles.SideChannel is not null;

    public (float[] Mid, float[] Side) Read(long from, long to)
    {
        var length = (int)Math.Max(0, to - from);
        var (mid, side) = (new float[length], new float[length]);
        var (first, last) = (Math.Max(0, from), Math.Min(_take.FrameCount, to));
        var at = (int)(first - from);
        if (last > first)
        {
            RoleBlocks.ForEach(_take, _roles, first, last, (int)Math.Min(BlockFrames, last - first), (_, m, s) =>
            {
                m.CopyTo(mid.AsSpan(at));
                s.CopyTo(side.AsSpan(at));
                at += m.Length;
            });
        }

        return (mid, side);
    }

    public void Dispose() => _take.Dispose();
}
