using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering;

/// <summary>Full-scale runs, flat tops, floating-point overs and overload after decoding.</summary>
/// <remarks>
/// No standard says how many samples make an over; one or two at full scale occur naturally, three are extreme and four almost surely
/// clipped (public practice, docs/sources.md#clipping).
/// </remarks>
internal static class ClippingDetector
{
    public static IEnumerable<Finding> Find(TakeMeasures m)
    {
        foreach (var role in (RoleMeasures[])[m.Mid, m.Side])
        {
            foreach (var finding in FullScale(role, m).Concat(FlatTops(role, m)).Concat(Overs(role, m)))
                yield return finding;
            if (NotFinite(role) is { } bad)
                yield return bad;
        }

        if (DecodedOverload(m) is { } overload)
            yield return overload;
    }

    private static IEnumerable<Finding> FullScale(RoleMeasures role, TakeMeasures m)
    {
        var (listed, others) = Choose(role.FullScale, s => s.LongestFrames);
        foreach (var s in listed)
        {
            var sure = s.LongestFrames >= 4;
            yield return new()
            {
                Kind = FindingKinds.FullScaleRuns,
                Severity = sure ? FindingSeverity.Fault : FindingSeverity.Caution,
                Role = role.Role,
                Range = s.Range,
                Confidence = sure ? 1 : 0.6,
                Size = s.LongestFrames,
                SizeUnit = "frames",
                Message = $"The {Name(role.Role)} {(sure ? "is clipped" : "may be clipped")} at {Time(s.Range.From, m.SampleRateHertz)}: {Times(s.Count, "run")} at full scale, the longest of {s.LongestFrames} samples.{Besides(others, s == listed[^1])}",
                Remedy = sure ? "Use another take or cut around it; next time give this input more headroom." : "Listen to it; three samples at full scale can be a true peak.",
                Evidence = [new("runs", s.Count, ""), new("longest run", s.LongestFrames, "frames")],
            };
        }
    }

    private static IEnumerable<Finding> FlatTops(RoleMeasures role, TakeMeasures m)
    {
        // Chance flats lie anywhere; a ceiling is one level, and nothing goes beyond it.
        var below = (role.SamplePeak - DecibelsFullScale.FromAmplitude(role.FlatTops.PeakAmplitude)).Value;
        if (role.FlatTops.Count < 3 || role.FlatTopsAtCeiling < 0.8 || below > 0.2)
            yield break;
        var confidence = Math.Min(0.95, 0.5 + (0.05 * role.FlatTops.Count));
        var (listed, others) = Choose(role.FlatTops, s => s.Count);
        foreach (var s in listed)
        {
            yield return new()
            {
                Kind = FindingKinds.FlatTops,
                Severity = confidence >= 0.8 ? FindingSeverity.Fault : FindingSeverity.Caution,
                Role = role.Role,
                Range = s.Range,
                Confidence = confidence,
                Size = DecibelsFullScale.FromAmplitude(s.PeakAmplitude).Value,
                SizeUnit = "dBFS",
                Message = $"The {Name(role.Role)} has {Times(s.Count, "peak")} cut flat at {DecibelsFullScale.FromAmplitude(s.PeakAmplitude)}, from {Time(s.Range.From, m.SampleRateHertz)}: something before the recorder's full scale overloaded.{Besides(others, s == listed[^1])}",
                Remedy = "Use another take or cut around it; next time lower the gain before the stage that overloads.",
                Evidence = [new("flat tops", s.Count, ""), new("longest", s.LongestFrames, "frames"), new("share at one ceiling", role.FlatTopsAtCeiling, "")],
            };
        }
    }

    private static IEnumerable<Finding> Overs(RoleMeasures role, TakeMeasures m)
    {
        var runs = role.FloatOvers;
        if (runs.Count == 0)
            yield break;
        yield return new()
        {
            Kind = FindingKinds.FloatOvers,
            Severity = FindingSeverity.Note,
            Role = role.Role,
            Range = runs.Stretches.MaxBy(s => s.PeakAmplitude)?.Range,
            Size = role.SamplePeak.Value,
            SizeUnit = "dBFS",
            Message = Text($"The {Name(role.Role)} goes to {role.SamplePeak} in floating point, {runs.Frames} samples beyond full scale; they are whole."),
            Remedy = Text($"Nothing is lost; deliver in integers only with a trim of {new Decibels(-Math.Ceiling(role.SamplePeak.Value * 10) / 10)} or lower."),
            Evidence = [new("samples beyond full scale", runs.Frames, ""), new("peak", role.SamplePeak.Value, "dBFS"), new("sample rate", m.SampleRateHertz, "Hz")],
        };
    }

    private static Finding? NotFinite(RoleMeasures role) => role.NotFinite == 0 ? null : new()
    {
        Kind = FindingKinds.NotFinite,
        Severity = FindingSeverity.Fault,
        Role = role.Role,
        Size = role.NotFinite,
        SizeUnit = "samples",
        Message = Text($"The {Name(role.Role)} holds {role.NotFinite} samples that are no finite numbers; they were metered as zero."),
        Remedy = "Read the card again; if they are in the original, cut around them.",
        Evidence = [new("samples", role.NotFinite, "")],
    };

    private static Finding? DecodedOverload(TakeMeasures m)
    {
        var worst = m.Left.SamplePeak >= m.Right.SamplePeak ? m.Left : m.Right;
        if (worst.FullScale.Count == 0 || m.Mid.FloatOvers.Count > 0)
            return null;
        var peak = m.DecodedTruePeak;
        var stretch = worst.FullScale.Stretches.MaxBy(s => s.PeakAmplitude);
        return new()
        {
            Kind = FindingKinds.DecodedOverload,
            Severity = FindingSeverity.Caution,
            Role = worst.Role,
            Range = stretch?.Range,
            Size = worst.SamplePeak.Value,
            SizeUnit = "dBFS",
            Message = Text($"Decoded at this side level, {Name(worst.Role)} goes {worst.SamplePeak.Value:0.0} dB beyond full scale ({m.Left.FullScale.Count + m.Right.FullScale.Count} times); mid and side themselves do not."),
            Remedy = Text($"Deliver with a trim of {new Decibels(-Math.Ceiling(peak.Value * 10) / 10)} or lower, in floating point, or with a lower side level."),
            Evidence = [new("sample peak", worst.SamplePeak.Value, "dBFS"), new("true peak", peak.Value, "dBTP"), new("trim needed", -peak.Value, "dB")],
        };
    }
}
