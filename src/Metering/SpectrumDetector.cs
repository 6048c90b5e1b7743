using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering;

/// <summary>Channels whose spectrum ends far below half the sample rate.</summary>
internal static class SpectrumDetector
{
    public static IEnumerable<Finding> Find(TakeMeasures m)
    {
        foreach (var role in (RoleMeasures[])[m.Mid, m.Side])
        {
            if (LowBandwidth(role, m) is { } finding)
                yield return finding;
        }
    }

    private static Finding? LowBandwidth(RoleMeasures role, TakeMeasures m)
    {
        var (highest, half) = (role.HighestUsefulFrequency.Value, m.SampleRateHertz / 2.0);
        // Converters and rate conversions end at 0.9 of half the rate and above; and a spectrum that fades by itself is no fault.
        if (highest <= 0 || highest > 0.85 * half || role.BandEdgeDrop.Value < 20)
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
