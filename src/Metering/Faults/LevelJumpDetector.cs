using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Faults;

/// <summary>Gains that jump: one channel moves against the other by the same decibels in every band, at once and for good.</summary>
/// <remarks>
/// A gain is flat over frequency, is over within a few milliseconds, moves the noise with the sound and leaves the other channel alone. A
/// sound that begins is heard by both, or has a spectrum of its own, or does not stay. Each of these is evidence and none is proof: they
/// are added up. Common practice, no published source.
/// </remarks>
internal static class LevelJumpDetector
{
    /// <summary>Frames of 20 ms: what a jump is looked for with, the least that must lie on each side of it, and the most that is looked at.</summary>
    internal const int Near = 8, Shortest = 30, Longest = 100;
    // What is far larger must be as even as a jump of that many decibels.
    private const double Smallest = 2, Large = 8, Agrees = 3, Told = 5, Sure = 6.5;

    /// <summary>A jump: its first frame, how far the channel moves, which, and the evidence for it.</summary>
    internal readonly record struct Jump(int Frame, double Decibels, bool Side, double Evidence);

    public static IEnumerable<Finding> Find(TakeMeasures m, FaultMeasures f)
    {
        var jumps = Jumps(f.Gains);
        if (jumps.Count > 2 * TakeDetectors.MostOfAKind)
            yield break;
        foreach (var side in (bool[])[false, true])
        {
            var own = jumps.FindAll(j => j.Side == side);
            for (var i = 0; i < Math.Min(own.Count, TakeDetectors.MostOfAKind); i++)
            {
                var end = i + 1 < own.Count && Math.Abs(own[i].Decibels + own[i + 1].Decibels) < 2 ? FrameOf(own[i + 1], m) : m.FrameCount.Value;
                yield return Tell(own[i], FrameRange.FromFrames(FrameOf(own[i], m), end), m.SampleRateHertz);
            }
        }
    }

    private static long FrameOf(Jump jump, TakeMeasures m) => m.Track.Grid.FrameOf(GainCourse.Hop * (long)jump.Frame);

    internal static List<Jump> Jumps(GainCourse course)
    {
        var found = new List<Jump>();
        if (course.Count < (2 * Shortest) + 2)
            return found;
        var view = new GainView(course);
        var steps = new double[view.Count];
        for (var i = Near; i + Near < steps.Length; i++)
            steps[i] = view.Step(i, Near);
        var usual = Usual(steps);
        for (var i = Shortest; i + Shortest < steps.Length; i++)
        {
            if (Math.Abs(steps[i]) < Smallest || !IsLargest(steps, i))
                continue;
            if (Judge(view, steps, i, usual) is not { } jump)
                continue;
            // Of neighbours that move alike the clearest is it.
            if (found.Count == 0 || jump.Frame - found[^1].Frame > Shortest || (jump.Frame - found[^1].Frame > Near && jump.Decibels * found[^1].Decibels < 0))
                found.Add(jump);
            else if (jump.Evidence > found[^1].Evidence)
                found[^1] = jump;
        }

        return found;
    }

    /// <summary>What the largest of a hundred steps is without jumps: the 95th percentile.</summary>
    private static double Usual(double[] steps)
    {
        var sorted = Array.ConvertAll(steps, Math.Abs);
        Array.Sort(sorted);
        return sorted[(int)(0.95 * (sorted.Length - 1))];
    }

    private static bool IsLargest(double[] steps, int at)
    {
        for (var i = at - 3; i <= at + 3; i++)
        {
            if (Math.Abs(steps[i]) > Math.Abs(steps[at]) || (i < at && Math.Abs(steps[i]) == Math.Abs(steps[at])))
                return false;
        }

        return true;
    }

    private static Jump? Judge(GainView view, double[] steps, int at, double usual)
    {
        // The frame in which it happens: two levels, one before and one after, fit best there.
        var (from, to) = (at - Near - 2, at + Near + 3);
        at = Enumerable.Range(at - 4, 9).Where(i => i >= Shortest && i + Shortest < view.Count).MinBy(i => view.Misfit(i, from, to));
        var room = Math.Min(at, view.Count - 1 - at);
        var best = ((int[])[Near, 2 * Near, Shortest]).Select(width => view.Against(at, width)).MinBy(x => x.Deviation);
        var step = best.Mean;
        if (Math.Abs(step) < Smallest)
            return null;
        var evidence = Flat(best.Deviation / Math.Min(Math.Abs(step), Large)) + AtOnce(view.Step(at, 2) / step) + Stays(view, at, room, step) + Rare(Math.Abs(step) / Math.Max(0.1, usual));
        var (mid, side) = (Alone(view, at, room, step, false), Alone(view, at, room, step, true));
        var isSide = side.Closeness > mid.Closeness;
        evidence += Math.Max(mid.Evidence, side.Evidence);
        if (evidence < Told)
            return null;
        var floor = (isSide ? side : mid).Floor;
        var size = isSide ? Size(view, at, room) : -Size(view, at, room);
        // Where the sound moves at the same moment, the quiet knows better; else it is the coarser of the two.
        return new(at, Math.Abs(floor - size) > 1.5 ? floor : size, isSide, evidence);
    }

    private static double Flat(double spread) => spread < 0.15 ? 2 : spread < 0.3 ? 1 : spread < 0.45 ? 0 : spread < 0.6 ? -2 : -5;

    private static double AtOnce(double narrow) => narrow is > 0.75 and < 1.4 ? 1 : narrow is > 0.55 and < 1.9 ? 0 : -2;

    /// <summary>Whether it stays over 0.6, 1 and 2 s, in the quiet as in the loud.</summary>
    private static double Stays(GainView view, int at, int room, double step)
    {
        var evidence = 0.0;
        foreach (var width in (ReadOnlySpan<int>)[Shortest, Math.Min(Longest / 2, room), Math.Min(Longest, room)])
        {
            var (low, middle, high) = view.Stays(at, width);
            bool Holds(double x) => Math.Abs(x - step) < 0.45 * Math.Min(Math.Abs(step), Large);
            evidence += Holds(low) && Holds(middle) && Holds(high) ? 1 : Holds(middle) ? 0.5 : 0;
        }

        return evidence < 1 ? evidence - 2 : evidence;
    }

    private static double Rare(double overUsual) => overUsual > 3 ? 2 : overUsual > 2 ? 1 : overUsual > 1 ? 0 : -1;

    /// <summary>
    /// Whether one channel moves, now and in its quiet, while the other does neither; how close to that it is, to choose between the two;
    /// and how far its quiet moves, NaN where that is not all one gain.
    /// </summary>
    private static (double Evidence, double Closeness, double Floor) Alone(GainView view, int at, int room, double step, bool side)
    {
        var full = side ? step : -step;
        var size = Math.Min(Math.Abs(step), Large);
        var (own, other) = (view.Own(side, at, 3), view.Own(!side, at, 3));
        var width = Math.Min(Longest / 2, room);
        var (floors, otherFloor) = (view.Own(side, at, width, 0.2), view.Own(!side, at, width, 0.2).Mean);
        var floor = floors.Mean;
        var still = Math.Abs(other.Mean) / size;
        var evidence = still > 0.6 ? -1.0 : 0;
        evidence += still < 0.25 && Math.Abs(own.Mean - full) < 0.35 * size ? 1 : 0;
        evidence += still < 0.25 && own.Deviation < Math.Max(0.6, 0.2 * size) ? 1 : 0;
        var one = floors.Deviation < Math.Max(0.6, 0.12 * size);
        var quiet = Math.Abs(otherFloor) < Math.Max(0.7, 0.15 * size) && Math.Abs(floor - full) < Math.Max(0.8, 0.2 * size);
        if (quiet)
            evidence += one ? 4 : 2;
        else if (Math.Abs(otherFloor) < 0.3 * size && Math.Abs(floor - full) < 0.35 * size)
            evidence++;
        // The quiet counts twice: sound that changes at the same moment moves what is near, not what is quiet for a second.
        return (evidence, -(Math.Abs(other.Mean) + Math.Abs(own.Mean - full) + (2 * (Math.Abs(otherFloor) + Math.Abs(floor - full)))), quiet && one ? floor - otherFloor : double.NaN);
    }

    /// <summary>
    /// How far the side moves against the mid: from the longest look that agrees with all shorter ones within three of their standard
    /// errors; farther away the sound is another.
    /// </summary>
    private static double Size(GainView view, int at, int room)
    {
        var (low, high, size) = (double.NegativeInfinity, double.PositiveInfinity, 0.0);
        foreach (var width in (ReadOnlySpan<int>)[Near, 2 * Near, Shortest, Math.Min(Longest / 2, room), Math.Min(Longest, room)])
        {
            var (look, error) = (view.Step(at, width), view.StepError(at, width));
            (low, high) = (Math.Max(low, look - (Agrees * error)), Math.Min(high, look + (Agrees * error)));
            if (low > high)
                break;
            size = look;
        }

        return size;
    }

    private static Finding Tell(Jump jump, FrameRange range, int rate)
    {
        var (role, decibels) = (jump.Side ? ChannelRole.Side : ChannelRole.Mid, jump.Decibels);
        return new()
        {
            Kind = FaultKinds.LevelJump,
            Severity = Math.Abs(decibels) >= 3 && jump.Evidence >= Sure ? FindingSeverity.Caution : FindingSeverity.Note,
            Role = role,
            Range = range,
            Size = decibels,
            SizeUnit = "dB",
            Confidence = Math.Clamp(0.4 + (0.1 * (jump.Evidence - Told)), 0.4, 0.95),
            Message = Text($"The {Name(role)} goes {(decibels > 0 ? "up" : "down")} by {Math.Abs(decibels):0.0} dB at once at {Time(range.From, rate)}, its quiet and its loud alike, and the other channel does not: a bumped gain, a cable or a battery. From there on the image is {((role == ChannelRole.Side) == (decibels > 0) ? "wider" : "narrower")}{(role == ChannelRole.Mid ? ", and mono changes its level" : ", mono is not concerned")}."),
            Remedy = Text($"A trim of {new Decibels(-decibels)} on the {Name(role)} for that part puts it back."),
            Evidence = [new("step", decibels, "dB")],
        };
    }
}
