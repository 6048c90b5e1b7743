using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering;

/// <summary>Channels whose spectrum ends far below half the sample rate.</summary>
internal static class SpectrumDetector
{
    private const double LowestEdge = 3000;

    public static IEnumerable<Finding> Find(TakeMeasures m)
    {
        var (mid, side) = (LowBandwidth(m.Mid, m), LowBandwidth(m.Side, m));
        // A lossy code or a lower rate ends both channels of a file near one frequency; one alone may be what its sound is made of.
        var alone = mid is null || side is null || Math.Abs(Math.Log2(mid.Size!.Value / side.Size!.Value)) > 0.25;
        foreach (var finding in (Finding?[])[mid, side])
        {
            if (finding is not null)
                yield return alone ? finding with { Severity = FindingSeverity.Note, Confidence = 0.5 } : finding;
        }
    }

    /// <summary>Whether the edge is the sound's: in the quiet, the noise of microphone and place goes on across it. What a filter cut off has no noise there.</summary>
    private static bool IsSoundAlone(RoleMeasures role, TakeMeasures m, double edge)
    {
        if (m.Faults?.Cross is not { Groups: > 1 } cross)
            return false;
        var quiet = role.Role == Quantities.ChannelRole.Side ? cross.QuietSide : cross.QuietMid;
        double Median(double from, double to)
        {
            var (low, high) = ((int)(edge * from * PairSpectrum.Length / m.SampleRateHertz), (int)Math.Min(edge * to * PairSpectrum.Length / m.SampleRateHertz, PairSpectrum.Bins - 2));
            double[] sorted = [.. quiet[low..Math.Max(low + 1, high)].Select(x => (double)x).Order()];
            return sorted[sorted.Length / 2];
        }

        // Rounding alone, step²/12 spread over the bins, tells nothing.
        var rounding = m.Scale.IsInteger ? 6 * m.Scale.Step * m.Scale.Step / 4 / PairSpectrum.Length : 1e-16;
        var (below, above) = (Median(0.85, 0.97), Median(1.08, 1.25));
        return above > 2 * rounding && below < 4 * above;
    }

    private static Finding? LowBandwidth(RoleMeasures role, TakeMeasures m)
    {
        var (highest, half) = (role.HighestUsefulFrequency.Value, m.SampleRateHertz / 2.0);
        // Converters and rate conversions end at 0.9 of half the rate and above; and a spectrum that fades by itself is no fault.
        // Nothing in use ends below a telephone's 3.4 kHz.
        if (highest < LowestEdge || highest > 0.85 * half || role.BandEdgeDrop.Value < 20)
            return null;
        if (IsSoundAlone(role, m, highest))
            return null;
        var lossy = highest < 17_000;
        return new()
        {
            Kind = FindingKinds.LowBandwidth,
            Severity = lossy ? FindingSeverity.Caution : FindingSeverity.Note,
            Role = role.Role,
            Confidence = 0.7,
            Size = highest,
            SizeUnit = "Hz",
            Message = Text($"The {Name(role.Role)} ends at {highest / 1000:0.0} kHz, where the spectrum falls by {role.BandEdgeDrop.Value:0} dB at once; the file could hold {half / 1000:0.0} kHz."),
            Remedy = lossy
                ? "Suspect a lossy code, a radio link or a low-pass on the way; look for the original."
                : "It was probably converted from a lower sample rate; delivering at that rate loses nothing.",
            Evidence = [new("highest useful frequency", highest, "Hz"), new("fall", role.BandEdgeDrop.Value, "dB")],
        };
    }
}
