using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Faults;

/// <summary>How levels go over the take: gains that jump, long quiet, an end that comes too early. From the K-weighted 10 ms that loudness keeps.</summary>
internal static class CourseDetector
{
    private const int Window = 200, Confirm = 10;

    private readonly record struct Jump(int Step, double Decibels);

    public static IEnumerable<Finding> Find(TakeMeasures m)
    {
        var (mid, side) = (Levels(m.Track.MidEnergies), Levels(m.Track.SideEnergies));
        foreach (var finding in Jumps(ChannelRole.Mid, mid, side, m).Concat(Jumps(ChannelRole.Side, side, mid, m)))
            yield return finding;
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

    private static IEnumerable<Finding> Jumps(ChannelRole role, double[] own, double[] other, TakeMeasures m)
    {
        var jumps = Steps(own, other);
        if (jumps.Count > 2 * TakeDetectors.MostOfAKind)
            yield break;
        for (var i = 0; i < Math.Min(jumps.Count, TakeDetectors.MostOfAKind); i++)
        {
            var end = i + 1 < jumps.Count && Math.Abs(jumps[i].Decibels + jumps[i + 1].Decibels) < 2 ? m.Track.Grid.FrameOf(jumps[i + 1].Step) : m.FrameCount.Value;
            yield return LevelJump(role, jumps[i], FrameRange.FromFrames(m.Track.Grid.FrameOf(jumps[i].Step), end), m.SampleRateHertz);
        }
    }

    private static Finding LevelJump(ChannelRole role, Jump jump, FrameRange range, int rate) => new()
    {
        Kind = FaultKinds.LevelJump,
        Severity = Math.Abs(jump.Decibels) >= 3 ? FindingSeverity.Caution : FindingSeverity.Note,
        Role = role,
        Range = range,
        Size = jump.Decibels,
        SizeUnit = "dB",
        Confidence = 0.6,
        Message = Text($"The {Name(role)} goes {(jump.Decibels > 0 ? "up" : "down")} by {Math.Abs(jump.Decibels):0.0} dB at once at {Time(range.From, rate)}, its quiet and its loud alike, and the other channel does not: a bumped gain, a cable or a battery. From there on the image is {((role == ChannelRole.Side) == (jump.Decibels > 0) ? "wider" : "narrower")}{(role == ChannelRole.Mid ? ", and mono changes its level" : ", mono is not concerned")}."),
        Remedy = Text($"A trim of {new Decibels(-jump.Decibels)} on the {Name(role)} for that part puts it back."),
        Evidence = [new("step", jump.Decibels, "dB")],
    };

    /// <summary>Steps of one channel: its quiet, its middle and its loud move together by 2 dB or more within 20 ms, and the other channel stays.</summary>
    private static List<Jump> Steps(double[] own, double[] other)
    {
        var found = new List<Jump>();
        var (a, b) = (Sums(own), Sums(other));
        for (var i = Window; i + Window <= own.Length; i++)
        {
            if (Math.Abs(Change(a, i, Window)) < 2 || Math.Abs(Change(b, i, Window)) > 1.2)
                continue;
            var at = Enumerable.Range(i, Math.Min(Window, own.Length - Window - i + 1)).MaxBy(j => Math.Abs(Change(a, j, Confirm)) + Math.Abs(Change(a, j, Window)));
            if (Together(own, at) is { } decibels && Math.Abs(Change(b, at, Window)) < 1.2 && Sharp(own, at, decibels))
            {
                found.Add(new(at, decibels));
                i = at + Window;
            }
            else
            {
                i = at;
            }
        }

        return found;
    }

    private static double[] Sums(double[] levels)
    {
        var sums = new double[levels.Length + 1];
        for (var i = 0; i < levels.Length; i++)
            sums[i + 1] = sums[i] + levels[i];
        return sums;
    }

    private static double Change(double[] sums, int at, int width) => (sums[at + width] - (2 * sums[at]) + sums[at - width]) / width;

    private static double? Together(double[] levels, int at)
    {
        double[] before = [.. levels[(at - Window)..at].Order()], after = [.. levels[at..(at + Window)].Order()];
        double[] moves = [.. ((int[])[Window / 10, Window / 4, Window / 2, Window * 3 / 4, Window * 9 / 10]).Select(q => after[q] - before[q])];
        var middle = moves.Order().ElementAt(2);
        // The floor of a channel that was all but silent, and the sudden start of a sound, do not move all alike.
        return Math.Abs(middle) >= 2 && moves.Max() - moves.Min() < Math.Max(1.2, Math.Abs(middle) / 4) && before[Window / 2] > -140 ? middle : null;
    }

    private static bool Sharp(double[] levels, int at, double decibels)
    {
        var change = levels[(at + 1)..(at + 1 + Confirm)].Average() - levels[(at - 1 - Confirm)..(at - 1)].Average();
        return change / decibels > 0.6;
    }

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
