using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Faults;

/// <summary>How levels go over the take: gains that jump, long quiet, an end that comes too early. From the K-weighted 10 ms that loudness keeps.</summary>
internal static class CourseDetector
{
    private const int Window = 200, Confirm = 10, Shortest = 60;

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
        // A gain leaves the correlation of the two as it is; a sound that passes the front turns it over.
        var jumps = Steps(own, other).FindAll(j => Math.Abs(Correlation(m, (j.Step / 10) + 1) - Correlation(m, (j.Step / 10) - 10)) < 0.35);
        if (jumps.Count > 2 * TakeDetectors.MostOfAKind)
            yield break;
        for (var i = 0; i < Math.Min(jumps.Count, TakeDetectors.MostOfAKind); i++)
        {
            var end = i + 1 < jumps.Count && Math.Abs(jumps[i].Decibels + jumps[i + 1].Decibels) < 2 ? m.Track.Grid.FrameOf(jumps[i + 1].Step) : m.FrameCount.Value;
            yield return LevelJump(role, jumps[i], FrameRange.FromFrames(m.Track.Grid.FrameOf(jumps[i].Step), end), m.SampleRateHertz);
        }
    }

    /// <summary>Mean correlation of mid and side over the second that begins at a tenth.</summary>
    private static double Correlation(TakeMeasures m, int first)
    {
        var from = Math.Max(0, first);
        var hops = Enumerable.Range(from, Math.Clamp(m.Track.Hops.Count - from, 0, 10)).Select(i => m.Track.Hops[i]).Where(h => h.MidMid > 0 && h.SideSide > 0).ToList();
        return hops.Count == 0 ? 0 : hops.Average(h => h.MidSide / Math.Sqrt(h.MidMid * h.SideSide));
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

    /// <summary>Steps of one channel against the other.</summary>
    /// <remarks>
    /// A gain changes the difference of the two at once and for good, far beyond how it usually wavers, and leaves the other channel as
    /// it was. A sound that begins is heard by the other too, or does not stay.
    /// </remarks>
    private static List<Jump> Steps(double[] own, double[] other)
    {
        var found = new List<Jump>();
        var (sums, others) = (Sums([.. own.Zip(other, (a, b) => Math.Clamp(a - b, -60, 60))]), Sums(other));
        var changes = new double[own.Length + 1];
        for (var i = Confirm; i + Confirm <= own.Length; i++)
            changes[i] = Change(sums, i, Confirm);
        for (var i = Shortest; i + Shortest <= own.Length; i++)
        {
            if (Math.Abs(changes[i]) < 2 || !IsLargest(changes, i))
                continue;
            var at = Enumerable.Range(i - 6, 13).MaxBy(j => Math.Abs(Change(sums, j, 4)));
            if (Jumps(own, other, sums, others, changes, at) is not { } decibels)
                continue;
            found.Add(new(at, decibels));
            i = at + (2 * Confirm);
        }

        return found;
    }

    private static bool IsLargest(double[] changes, int at)
    {
        for (var i = Math.Max(0, at - (Confirm / 2)); i <= Math.Min(changes.Length - 1, at + (Confirm / 2)); i++)
        {
            if (Math.Abs(changes[i]) > Math.Abs(changes[at]))
                return false;
        }

        return true;
    }

    private static double? Jumps(double[] own, double[] other, double[] sums, double[] others, double[] changes, int at)
    {
        var width = Math.Min(Window, Math.Min(at, own.Length - at));
        // A step aside, so that the 10 ms in which it happens do not count.
        double Median(double[] a, double[] b, int from, int to) => Enumerable.Range(from, to - from).Select(i => a[i] - b[i]).Order().ElementAt((to - from) / 2);
        var stays = Median(own, other, at + 1, at + width) - Median(own, other, at - width, at - 1);
        var near = Median(own, other, at + 1, at + 16) - Median(own, other, at - 16, at - 1);
        if (Math.Abs(stays) < 2 || near / stays is < 0.6 or > 1.7 || Math.Abs(Change(sums, at, 4)) < 0.6 * Math.Abs(near) || !Whole(own, other, at, width, stays))
            return null;
        var usual = Usual(changes, at, width);
        if (Math.Abs(near) < 5 * usual || Math.Abs(Change(others, at, Confirm)) > Math.Max(1, 0.35 * Math.Abs(near)) || own[at - 2] < -140 || own[at + 2] < -140)
            return null;
        // What the recordist would read: from as long as nothing else changes it.
        return Math.Abs(stays - near) < 2 ? stays : near;
    }

    /// <summary>Whether the tenths of the difference move with its middle: a sound that comes and goes moves one of them.</summary>
    private static bool Whole(double[] own, double[] other, int at, int width, double stays)
    {
        double[] Sorted(int from, int to) => [.. Enumerable.Range(from, to - from).Select(i => own[i] - other[i]).Order()];
        var (before, after) = (Sorted(at - width, at - 1), Sorted(at + 1, at + width));
        double At(double[] x, double share) => x[(int)(share * (x.Length - 1))];
        // A gain leaves the spread as it is.
        if (Math.Abs(At(after, 0.85) - At(after, 0.15) - (At(before, 0.85) - At(before, 0.15))) > 1 + (0.3 * Math.Abs(stays)))
            return false;
        return ((double[])[0.15, 0.85]).All(q => (after[(int)(q * (after.Length - 1))] - before[(int)(q * (before.Length - 1))]) / stays is > 0.6 and < 1.7);
    }

    /// <summary>Median magnitude of the changes around a place, without the place.</summary>
    private static double Usual(double[] changes, int at, int width)
    {
        var all = Enumerable.Range(Math.Max(0, at - width), Math.Min(changes.Length, at + width + 1) - Math.Max(0, at - width)).Where(i => Math.Abs(i - at) > Confirm).Select(i => Math.Abs(changes[i])).Order().ToList();
        return all.Count == 0 ? double.PositiveInfinity : all[all.Count / 2];
    }

    private static double[] Sums(double[] levels)
    {
        var sums = new double[levels.Length + 1];
        for (var i = 0; i < levels.Length; i++)
            sums[i + 1] = sums[i] + levels[i];
        return sums;
    }

    private static double Change(double[] sums, int at, int width) => (sums[at + width] - (2 * sums[at]) + sums[at - width]) / width;

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
