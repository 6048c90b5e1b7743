using Athwart.Quantities;

namespace Athwart.Metering.Faults;

/// <summary>Turns what the fault meter heard into findings.</summary>
internal static class FaultDetectors
{
    public static IEnumerable<Finding> Find(TakeMeasures m) => m.Faults is not { } f ? [] : [.. DamageDetector.Find(m, f), .. Sounding(m, f)];

    private static IEnumerable<Finding> Sounding(TakeMeasures m, FaultMeasures f)
    {
        foreach (var finding in HumDetector.Find(m, f).Concat(WindDetector.Find(m, f)).Concat(ToneDetector.Find(m, f)).Concat(SweepDetector.Find(m, f)).Concat(CourseDetector.Find(m)).Concat(LevelJumpDetector.Find(m, f)))
            yield return finding;
        // With a dead or copied channel there is no pair to judge.
        if (m.Mid.IsConstant || m.Side.IsConstant || m.CopyResidual.Value < -50)
            yield break;
        if (SideDelay.Find(m, f) is { } delay)
            yield return delay;
        foreach (var finding in WidthDetector.Find(m, f).Concat(PairKindDetector.Find(m, f)))
            yield return finding;
    }
}
