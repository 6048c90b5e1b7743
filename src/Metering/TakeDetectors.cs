using Athwart.Metering.Faults;
using Athwart.Metering.Slate;
using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>Turns the measures of a take into findings, the gravest first.</summary>
/// <remarks>
/// Every kind appears at most <see cref="MostOfAKind"/> times for a channel; when there are more stretches, the longest are listed
/// and the last one says how many were left out. A take with nothing wrong gives an empty list. The thresholds are common practice
/// unless a remark names a source.
/// </remarks>
public static class TakeDetectors
{
    /// <summary>How many findings of one kind a channel may have.</summary>
    public const int MostOfAKind = 5;

    /// <summary>Looks at everything that was measured.</summary>
    public static IReadOnlyList<Finding> Find(TakeMeasures measures)
    {
        ArgumentNullException.ThrowIfNull(measures);
        if (measures.FrameCount.Value == 0)
            return [];
        var findings = new List<Finding>();
        findings.AddRange(ClippingDetector.Find(measures));
        var silent = ChannelDetector.SilentTake(measures);
        findings.AddRange(silent is null ? Sounding(measures) : [silent]);
        findings.Sort((a, b) => b.Severity.CompareTo(a.Severity));
        return findings;
    }

    private static IEnumerable<Finding> Sounding(TakeMeasures measures) =>
        [.. ChannelDetector.Find(measures), .. StereoDetector.Find(measures), .. SpectrumDetector.Find(measures), .. FaultDetectors.Find(measures), .. SlateDetector.Find(measures) is { } slate ? (IEnumerable<Finding>)[slate] : []];
}
