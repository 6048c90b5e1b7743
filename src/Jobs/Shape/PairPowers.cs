using Athwart.Jobs.Roles;
using Athwart.Microphones.Width;
using Athwart.Recordings;

namespace Athwart.Jobs.Shape;

/// <summary>Mean powers of mid and side after steps.</summary>
internal static class PairPowers
{
    private const int BlockFrames = 4096;

    /// <summary>Reads a stretch once.</summary>
    public static MidSidePower Measure(IRecording take, RoleAssignment roles, IReadOnlyList<TreatmentStep> steps, long from, long to, CancellationToken cancellation)
    {
        var pair = TreatedStream.Open(take, roles, steps, 1);
        double[] mid = new double[BlockFrames], side = new double[BlockFrames];
        double mids = 0, sides = 0, cross = 0;
        pair.Begin(from);
        for (var at = from; at < to; at += BlockFrames)
        {
            cancellation.ThrowIfCancellationRequested();
            var count = (int)Math.Min(BlockFrames, to - at);
            pair.Read(mid.AsSpan(0, count), side.AsSpan(0, count));
            for (var n = 0; n < count; n++)
                (mids, sides, cross) = (mids + (mid[n] * mid[n]), sides + (side[n] * side[n]), cross + (mid[n] * side[n]));
        }

        var frames = Math.Max(1, to - from);
        return new(default, mids / frames, sides / frames, cross / frames);
    }
}
