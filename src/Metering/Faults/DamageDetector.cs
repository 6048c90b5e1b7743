using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Faults;

/// <summary>Clicks, dropouts, blocks written twice or lost: damage with exact frames.</summary>
internal static class DamageDetector
{
    public static IEnumerable<Finding> Find(TakeMeasures m, FaultMeasures f) =>
    [
        .. Clicks(ChannelRole.Mid, f.MidClicks, m),
        .. Clicks(ChannelRole.Side, f.SideClicks, m),
        .. Dropouts(m, f),
        .. Repeats(m, f),
        .. Breaks(m, f),
    ];

    private static IEnumerable<Finding> Clicks(ChannelRole role, SampleRuns runs, TakeMeasures m)
    {
        // Rain on a tent, a fire, a shutter: when hundreds come, they are the sound.
        var seconds = Math.Max(1, m.FrameCount.At(m.SampleRateHertz).TotalSeconds);
        var sound = runs.Count > 20 && runs.Count / seconds > 2;
        var (listed, others) = Choose(runs, s => s.PeakAmplitude);
        foreach (var s in sound ? listed.Take(1) : listed)
        {
            var level = DecibelsFullScale.FromAmplitude(s.PeakAmplitude);
            yield return new()
            {
                Kind = FaultKinds.Click,
                Severity = sound ? FindingSeverity.Note : FindingSeverity.Caution,
                Role = role,
                Range = s.Range,
                Size = level.Value,
                SizeUnit = "dBFS",
                Confidence = sound ? 0.4 : 0.9,
                Message = Text($"The {Name(role)} has {Times(s.Count, "click")} of up to {s.LongestFrames} samples at {Time(s.Range.From, m.SampleRateHertz)} (frame {s.Range.From.Value}), {level}: {Places(role, "the click")}.{(sound ? Text($" There are {runs.Count} in the take: they may be the sound itself.") : Besides(others, s == listed[^1]))}"),
                Remedy = "Replace these samples by interpolation from their neighbours, or cut around them.",
                Evidence = [new("clicks in the take", runs.Count, ""), new("longest", s.LongestFrames, "frames"), new("size", level.Value, "dBFS")],
            };
        }
    }

    /// <summary>Where something that is in one channel alone is heard after decoding.</summary>
    private static string Places(ChannelRole role, string what) => role == ChannelRole.Mid
        ? what + " is heard in the middle, and in mono"
        : what + " is heard at both sides with opposite polarity, and is gone in mono";

    private static IEnumerable<Finding> Dropouts(TakeMeasures m, FaultMeasures f)
    {
        var side = f.SideDropouts.Stretches.Select(s => s.Range).ToHashSet();
        var mid = f.MidDropouts.Stretches.Select(s => s.Range).ToHashSet();
        var all = f.MidDropouts.Stretches.Select(s => (s.Range, Role: side.Contains(s.Range) ? (ChannelRole?)null : ChannelRole.Mid))
            .Concat(f.SideDropouts.Stretches.Where(s => !mid.Contains(s.Range)).Select(s => (s.Range, Role: (ChannelRole?)ChannelRole.Side)));
        foreach (var group in all.GroupBy(d => d.Role))
        {
            var listed = group.OrderByDescending(d => d.Range.Length.Value).Take(TakeDetectors.MostOfAKind).OrderBy(d => d.Range.From.Value).ToList();
            foreach (var (range, role) in listed)
                yield return Dropout(range, role, Besides(group.Count() - listed.Count, range == listed[^1].Range), m.SampleRateHertz);
        }
    }

    private static Finding Dropout(FrameRange range, ChannelRole? role, string besides, int rate)
    {
        var milliseconds = range.Length.At(rate).TotalMilliseconds;
        var who = role is { } r ? "The " + Name(r) + " alone drops" : "Mid and side drop";
        return new()
        {
            Kind = FaultKinds.Dropout,
            Severity = FindingSeverity.Fault,
            Role = role,
            Range = range,
            Size = milliseconds,
            SizeUnit = "ms",
            Confidence = 0.95,
            Message = Text($"{who} out to exact zeros for {milliseconds:0.0} ms at {Time(range.From, rate)} (frames {range.From.Value} to {range.To.Value}), in the middle of sound: {(role is { } one ? Places(one, "the gap") : "a gap in stereo and in mono")}.{besides}"),
            Remedy = "Cut around it, or bridge it when it is shorter than 20 ms; look at the card and the cables.",
            Evidence = [new("zeros", range.Length.Value, "frames")],
        };
    }

    private static IEnumerable<Finding> Repeats(TakeMeasures m, FaultMeasures f)
    {
        var listed = f.Repeats.OrderByDescending(r => r.To - r.From).Take(TakeDetectors.MostOfAKind).OrderBy(r => r.From).ToList();
        foreach (var r in listed)
        {
            var range = FrameRange.FromFrames(r.From, r.To);
            yield return new()
            {
                Kind = FaultKinds.RepeatedBlock,
                Severity = FindingSeverity.Fault,
                Range = range,
                Size = r.To - r.From,
                SizeUnit = "frames",
                Confidence = 0.99,
                Message = Text($"{r.To - r.From} frames at {Time(range.From, m.SampleRateHertz)} (frames {r.From} to {r.To}) are a copy, sample for sample, of what lies {r.Lag} frames before: a stutter in stereo and in mono.{Besides(f.Repeats.Count - listed.Count, r == listed[^1])}"),
                Remedy = "Cut the copy out, or cut around it; suspect the recorder's buffer or a slow card.",
                Evidence = [new("distance", r.Lag, "frames"), new("length", r.To - r.From, "frames")],
            };
        }
    }

    private static IEnumerable<Finding> Breaks(TakeMeasures m, FaultMeasures f)
    {
        bool Explained(long frame) => f.Repeats.Any(r => Math.Abs(frame - r.From) < 64 || Math.Abs(frame - r.To) < 64);
        var mid = f.MidBreaks.Where(b => !Explained(b.Frame)).ToList();
        var side = f.SideBreaks.Where(b => !Explained(b.Frame)).ToList();
        // Natural onsets that slip through come in dozens; a recorder that loses blocks rarely does.
        if (mid.Count + side.Count > 60)
            yield break;
        bool Near(long a, long b) => Math.Abs(a - b) <= 2;
        var both = mid.Where(b => side.Any(s => Near(s.Frame, b.Frame))).ToList();
        // A clicker or a latch is over nearly as fast: several such places may be sound.
        foreach (var b in both.Take(TakeDetectors.MostOfAKind))
            yield return Break(b.Frame, null, b.Ratio, m.SampleRateHertz) is var found && both.Count > 2 ? found with { Severity = FindingSeverity.Note, Confidence = 0.3 } : found;
        // One channel alone: sound from where the other is deaf looks alike, so only what is far out of proportion is told.
        foreach (var b in mid.Where(b => b.Ratio > 40 && !both.Any(x => Near(x.Frame, b.Frame))).Take(TakeDetectors.MostOfAKind))
            yield return Break(b.Frame, ChannelRole.Mid, b.Ratio, m.SampleRateHertz);
        foreach (var b in side.Where(b => b.Ratio > 40 && !both.Any(x => Near(x.Frame, b.Frame))).Take(TakeDetectors.MostOfAKind))
            yield return Break(b.Frame, ChannelRole.Side, b.Ratio, m.SampleRateHertz);
    }

    private static Finding Break(long frame, ChannelRole? role, double ratio, int rate)
    {
        var range = FrameRange.FromFrames(frame, frame + 1);
        return new()
        {
            Kind = role is null ? FaultKinds.MissingBlock : FaultKinds.Discontinuity,
            Severity = role is null && ratio > 25 ? FindingSeverity.Caution : FindingSeverity.Note,
            Role = role,
            Range = range,
            Size = 20 * Math.Log10(ratio),
            SizeUnit = "dB",
            Confidence = role is null ? (ratio > 25 ? 0.8 : 0.5) : 0.5,
            Message = role is { } r
                ? Text($"The {Name(r)} jumps at {Time(range.From, rate)} (frame {frame}): what comes after does not follow from what was before; {Places(r, "the jump")}.")
                : Text($"Mid and side jump together at {Time(range.From, rate)} (frame {frame}): what comes after does not follow from what was before. Samples are missing, or the take was put together there; a tick in stereo and in mono."),
            Remedy = "Listen there and cut at that frame with a short crossfade.",
            Evidence = [new("jump above what is foreseeable", 20 * Math.Log10(ratio), "dB")],
        };
    }
}
