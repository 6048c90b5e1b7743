namespace Athwart.Metering.Events;

/// <summary>Joins stretches that belong together, and parts strikes that do not.</summary>
internal static class EventJoiner
{
    private const double PauseOfLonger = 0.15;
    private const double LongestPauseSeconds = 1;

    /// <summary>The events as stretches, in order.</summary>
    public static IEnumerable<Stretch> Join(List<Stretch> stretches, float[] heights, EventSettings settings)
    {
        var groups = stretches.ConvertAll(s => new List<Stretch> { s });
        // Until nothing joins any more: what is short by itself may be the edge of something long.
        for (var before = 0; before != groups.Count;)
        {
            before = groups.Count;
            groups = Once(groups, settings);
        }

        return groups.SelectMany(group => Parts(group, heights, settings));
    }

    private static List<List<Stretch>> Once(List<List<Stretch>> groups, EventSettings settings)
    {
        var joined = new List<List<Stretch>>();
        foreach (var group in groups)
        {
            if (joined.Count > 0 && group[0].From - joined[^1][^1].To <= Gap(joined[^1], group, settings))
                joined[^1].AddRange(group);
            else
                joined.Add(group);
        }

        return joined;
    }

    private static double Gap(List<Stretch> group, List<Stretch> next, EventSettings settings)
    {
        var longer = Math.Max(group[^1].To - group[0].From, next[^1].To - next[0].From) / LevelTrack.StepsPerSecond;
        return LevelTrack.StepsPerSecond * Math.Max(settings.JoinSeconds, Math.Min(LongestPauseSeconds, PauseOfLonger * longer));
    }

    private static IEnumerable<Stretch> Parts(List<Stretch> group, float[] heights, EventSettings settings)
    {
        var (from, to) = (group[0].From, group[^1].To);
        if (settings.SplitsRows)
        {
            foreach (var strike in RowSplitter.Find(heights, (int)from, Math.Min(heights.Length, (int)Math.Ceiling(to)), settings.RowSeconds * LevelTrack.StepsPerSecond))
            {
                // Where the strike lies in a pause, the pause belongs to neither.
                var (before, after) = Edges(group, strike);
                yield return new(from, before);
                from = after;
            }
        }

        yield return new(from, to);
    }

    private static (double Before, double After) Edges(List<Stretch> group, int strike)
    {
        for (var i = 1; i < group.Count; i++)
        {
            // An onset found to the half step may lie a step or two either side of where the valley ends.
            if (strike >= group[i - 1].To - 1 && strike <= group[i].From + 3)
                return (group[i - 1].To, group[i].From);
        }

        return (strike, strike);
    }
}
