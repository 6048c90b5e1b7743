using Athwart.Jobs.Shape;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Tests.Shape;

/// <summary>Steps for tests.</summary>
internal static class Steps
{
    /// <summary>Steps are the same when their JSON is.</summary>
    public static IEqualityComparer<TreatmentStep> SameJson { get; } = EqualityComparer<TreatmentStep>.Create((a, b) => Json(a!) == Json(b!), s => Json(s).GetHashCode(StringComparison.Ordinal));

    public static TreatmentStep Trim(double decibels = -3, PairRoles roles = PairRoles.Side) => TreatmentStep.Of(new Trim(roles, decibels));

    public static TreatmentStep Swap() => TreatmentStep.Of(new Swap());

    public static TreatmentStep Invert(PairRoles roles = PairRoles.Side) => TreatmentStep.Of(new Invert(roles));

    private static string Json(TreatmentStep step) => TreatmentFiles.ToJson(new() { Name = "one", Steps = [step] });
}

/// <summary>A stage with a memory and a look ahead: each frame becomes the mean of so many frames around it, and the noise of its number.</summary>
internal sealed class MovingMean(int ahead, int behind) : IPairStage
{
    private readonly double[] _mid = new double[ahead + behind + 1], _side = new double[ahead + behind + 1];
    private long _next;

    public int LatencyFrames => ahead;

    public long SettlingFrames => behind;

    public long Began { get; private set; }

    public void Begin(long firstFrame)
    {
        (_next, Began) = (firstFrame, firstFrame);
        Array.Clear(_mid);
        Array.Clear(_side);
    }

    public void Process(Span<double> mid, Span<double> side)
    {
        for (var n = 0; n < mid.Length; n++, _next++)
        {
            var place = (int)((_next % _mid.Length + _mid.Length) % _mid.Length);
            (_mid[place], _side[place]) = (mid[n], side[n]);
            mid[n] = _mid.Sum() / _mid.Length;
            side[n] = (_side.Sum() / _side.Length) + (((_next - ahead) % 7) * 1e-3);
        }
    }
}
