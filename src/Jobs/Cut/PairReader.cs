using Athwart.Jobs.Roles;
using Athwart.Recordings;

namespace Athwart.Jobs.Cut;

/// <summary>Reads short stretches of a take as mid and side; outside the take there is silence, and what is no number is silence too.</summary>
internal sealed class PairReader(IRecording recording, RoleAssignment roles)
{
    private const int BlockFrames = 8192;

    public long FrameCount => recording.FrameCount;

    public int SampleRateHertz => recording.SampleRateHertz;

    /// <summary>Frames from one up to, not including, another.</summary>
    public (double[] Mid, double[] Side) Read(long from, long to)
    {
        var (mid, side) = (new double[Math.Max(0, to - from)], new double[Math.Max(0, to - from)]);
        var at = Math.Max(0, from);
        RoleBlocks.ForEach(recording, roles, at, Math.Min(to, FrameCount), BlockFrames, (_, m, s) =>
        {
            for (var i = 0; i < m.Length; i++)
                (mid[at - from + i], side[at - from + i]) = (Sound(m[i]), Sound(s[i]));
            at += m.Length;
        });
        return (mid, side);
    }

    private static double Sound(float sample) => float.IsFinite(sample) ? sample : 0;
}
