using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Faults;

/// <summary>Whether the pair is left and right rather than mid and side, and whether its roles are exchanged: probabilities from a few physical features.</summary>
/// <remarks>
/// A diffuse field gives mid and side nothing in common, and left and right what the mid has over the side at equal levels; sound from
/// left and from right correlates mid and side with opposite signs, and left and right hardly ever negatively. Each feature adds the
/// logarithm of its likelihood ratio between two normal distributions whose means follow from that (REFERENCES: diffuse-field values
/// of coincident pairs) and whose spreads are common practice; because features overlap, their sum counts 0.6.
/// </remarks>
internal static class PairKindDetector
{
    private const double Overlap = 0.6;

    private readonly record struct Features(double MixedCorrelation, double MixedDifference, double Correlation, double Opposed, double Difference, double LowCorrelation, double Tilt);

    public static IEnumerable<Finding> Find(TakeMeasures m, FaultMeasures f)
    {
        if (m.CopyResidual.Value < -40 || m.Mid.IsConstant || m.Side.IsConstant || Measure(m, f) is not { } x)
            yield break;
        var decoded = Sigmoid(Decoded(x));
        var swapped = Sigmoid(Swapped(x));
        if (decoded >= 0.7 && decoded >= swapped)
            yield return AlreadyDecoded(decoded, x);
        else if (swapped >= 0.7)
            yield return RolesSwapped(swapped, x);
    }

    private static double Sigmoid(double x) => 1 / (1 + Math.Exp(-x));

    private static double Decoded(Features x) => -2.4 + (Overlap * (
        Ratio(x.MixedCorrelation, 0.45, 0.2, 0, 0.2)
        + Ratio(x.MixedDifference, 0, 1, -6, 6)
        + Ratio(x.Correlation, 0.5, 0.3, 0, 0.4)
        + Ratio(x.LowCorrelation, 0.6, 0.3, 0, 0.3)
        + Math.Clamp(2.1 - (29 * x.Opposed), -6, 2.1)));

    // The mid lies 6 dB above the side, or below when swapped, give or take 5 dB: 2·6/5² of the difference.
    private static double Swapped(Features x) => -2.9 + (0.48 * x.Difference) + (x.Tilt / 6);

    /// <summary>Logarithm of the ratio of two normal densities, bounded so that no one feature decides.</summary>
    private static double Ratio(double x, double mean, double spread, double otherMean, double otherSpread)
    {
        var (u, v) = ((x - mean) / spread, (x - otherMean) / otherSpread);
        return Math.Clamp(((v * v) - (u * u)) / 2 + Math.Log(otherSpread / spread), -4, 4);
    }

    private static Features? Measure(TakeMeasures m, FaultMeasures f)
    {
        var hops = m.Track.Hops.Where(h => h.MidMid > 0 && h.SideSide > 0).OrderBy(h => h.MidMid + h.SideSide).ToList();
        if (hops.Count < 30 || f.Low.Count < 8 || f.Cross is not { Groups: > 0 } cross)
            return null;
        // One sound that outweighs all else correlates mid and side as it does left and right: only what is mixed tells them apart.
        var quiet = hops.FindAll(h => Math.Abs(Correlation(h)) < 0.75);
        if (quiet.Count < Math.Max(20, hops.Count / 6))
            quiet = [];
        var correlations = hops.ConvertAll(Correlation);
        return new(
            quiet.Count == 0 ? 0 : quiet.Average(Correlation),
            quiet.Count == 0 ? -6 : Difference(quiet),
            correlations.Average(),
            correlations.Count(r => r < -0.25) / (double)hops.Count,
            Difference(hops),
            f.Low.Average(x => x.CrossRe / Math.Sqrt(((double)x.MidLow * x.SideLow) + 1e-30)),
            Tilt(cross, m.SampleRateHertz));
    }

    private static double Correlation(HopSums h) => h.MidSide / Math.Sqrt(h.MidMid * h.SideSide);

    private static double Difference(List<HopSums> hops) => hops.Average(h => 10 * Math.Log10(h.SideSide / h.MidMid));

    /// <summary>How much more side there is from 50 to 200 Hz than from 500 to 4000 Hz, in dB.</summary>
    private static double Tilt(PairCross cross, int rate)
    {
        var width = rate / (double)PairCross.Length;
        double Between(double from, double to)
        {
            var (mid, side) = (1e-20, 1e-20);
            for (var k = Math.Max(1, (int)(from / width)); k <= (int)(to / width) && k < PairCross.Bins; k++)
                (mid, side) = (mid + cross.Mid[k], side + cross.Side[k]);
            return 10 * Math.Log10(side / mid);
        }

        return Math.Clamp(Between(50, 200) - Between(500, 4000), -20, 20);
    }

    private static Evidence[] Numbers(Features x) =>
    [
        new("correlation where sounds mix", x.MixedCorrelation, ""), new("correlation", x.Correlation, ""), new("correlation from 10 to 80 Hz", x.LowCorrelation, ""),
        new("time the channels are opposed", 100 * x.Opposed, "%"), new("second above first channel", x.Difference, "dB"), new("the same where sounds mix", x.MixedDifference, "dB"), new("low end of the second above the first", x.Tilt, "dB"),
    ];

    private static Finding AlreadyDecoded(double p, Features x) => new()
    {
        Kind = FaultKinds.AlreadyDecoded,
        Severity = p >= 0.95 ? FindingSeverity.Caution : FindingSeverity.Note,
        Confidence = p,
        Size = 100 * p,
        SizeUnit = "%",
        Message = Text($"With a probability of {100 * p:0} % the two channels are left and right, not mid and side: their levels differ by {Math.Abs(x.MixedDifference):0.0} dB where sounds mix, and they have a correlation of {x.MixedCorrelation:0.00} there. Decoded once more, stereo becomes half mono, half out of phase; mono becomes the left alone."),
        Remedy = "Listen to the two as they are; if they are left and right, do not decode them. Names of tracks and a rig profile say more than statistics.",
        Evidence = Numbers(x),
    };

    private static Finding RolesSwapped(double p, Features x) => new()
    {
        Kind = FaultKinds.RolesSwapped,
        Severity = p >= 0.95 ? FindingSeverity.Caution : FindingSeverity.Note,
        Confidence = p,
        Size = 100 * p,
        SizeUnit = "%",
        Message = Text($"With a probability of {100 * p:0} % the channel taken for the side is the mid: it lies {x.Difference:0.0} dB above the other. Decoded like this, stereo is out of phase and mono is the side alone. A sound straight from the side looks alike."),
        Remedy = "Listen to the channels one by one; say which is which with --mid and --side, or with roles. Names of tracks and a rig profile say more than statistics.",
        Evidence = Numbers(x),
    };
}
