using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Faults;

/// <summary>How levels go over the take: long quiet, an end that comes too early. From the K-weighted 10 ms that loudness keeps.</summary>
internal static class CourseDetector
{
    public static IEnumerable<Finding> Find(TakeMeasures m)
    {
        var mid = Levels(m.Track.MidEnergies);
        if (mid.Length < 200)
            yield break;
        var sorted = mid.Where(l => l > -190).Order().ToArray();
        if (sorted.Length < 100)
            yield break;
        var (floor, loud) = (sorted[sorted.Length / 20], sorted[^(sorted.Length / 50)]);
        if (EarlyEnd(mid, floor, loud, m) is { } end)
            yield return end;
        if (LongQuiet(mid, floor, loud, m) is { } quiet)
            yield return quiet;
    }

    private static double[] Levels(IReadOnlyList<float> energies) => [.. energies.Select(e => 10 * Math.Log10(e + 1e-20))];

    private static Finding? EarlyEnd(double[] mid, double floor, double loud, TakeMeasures m)
    {
        var last = (mid[^1] + mid[^2]) / 2;
        var before = mid[^100..^2].Average();
        if (last < floor + 20 || last < loud - 20 || last < before - 10)
            return null;
        return new()
        {
            Kind = FaultKinds.EarlyEnd,
            Severity = FindingSeverity.Note,
            Range = FrameRange.FromFrames(m.FrameCount.Value - (m.SampleRateHertz / 50), m.FrameCount.Value),
            Size = last - floor,
            SizeUnit = "dB",
            Confidence = 0.6,
            Message = Text($"The take ends in the middle of sound: its last 20 ms lie {last - floor:0} dB above its quiet and {Math.Max(0, loud - last):0} dB below its loudest. The end is cut off in stereo and in mono."),
            Remedy = "A fade hides it; what was not recorded does not come back.",
            Evidence = [new("last 20 ms above the quiet", last - floor, "dB")],
        };
    }

    private static Finding? LongQuiet(double[] mid, double floor, double loud, TakeMeasures m)
    {
        if (loud < floor + 15)
            return null;
        var (from, best, start) = (0, (From: 0, To: 0), -1);
        for (from = 0; from + 10 <= mid.Length; from += 10)
        {
            var quiet = mid[from..(from + 10)].Average() < floor + 6;
            start = !quiet ? -1 : start < 0 ? from : start;
            if (start >= 0 && from + 10 - start > best.To - best.From)
                best = (start, from + 10);
        }

        var seconds = (best.To - best.From) / 100.0;
        if (seconds < 10)
            return null;
        return new()
        {
            Kind = FaultKinds.LongQuiet,
            Severity = FindingSeverity.Note,
            Range = FrameRange.FromFrames(m.Track.Grid.FrameOf(best.From), m.Track.Grid.FrameOf(best.To)),
            Size = seconds,
            SizeUnit = "s",
            Confidence = 0.8,
            Message = Text($"For {seconds:0} s from {Time(new(m.Track.Grid.FrameOf(best.From)), m.SampleRateHertz)} nothing happens: within 6 dB of the quietest, {loud - floor:0} dB below the loudest."),
            Remedy = "Cut it off, or keep it as the sound of the place.",
            Evidence = [new("quiet", floor, "dB")],
        };
    }
}
