namespace Athwart.Metering.Events;

/// <summary>Tells strikes that stand apart inside one event, as steps in a room do, from one sound that goes up and down.</summary>
internal static class RowSplitter
{
    private const double DipRatio = 15.8;
    private const double StrikeRatio = DipRatio;
    private const int StrikeSteps = 4;
    private const double BottomRatio = 2;

    /// <summary>Steps inside an event at which a new strike begins, in order.</summary>
    /// <param name="heights">How far each step of the take stands out, as a ratio of powers.</param>
    /// <param name="from">The event's first step.</param>
    /// <param name="to">The step after its last.</param>
    /// <param name="leastSteps">Shortest time between strikes.</param>
    /// <returns>None when the strikes mostly follow each other faster, or rise slowly.</returns>
    public static List<int> Find(ReadOnlySpan<float> heights, int from, int to, double leastSteps)
    {
        var strikes = Strikes(heights[from..to], from);
        if (strikes.Count == 0)
            return [];
        var apart = strikes.Prepend(from).Zip(strikes, (a, b) => b - a).Order().ToArray();
        if (apart[apart.Length / 2] < leastSteps)
            return [];
        var kept = new List<int>();
        var last = from;
        foreach (var strike in strikes.Where(s => to - s >= leastSteps / 2))
        {
            if (strike - last < leastSteps)
                continue;
            kept.Add(strike);
            last = strike;
        }

        return kept;
    }

    // Up and down by the dip: a valley is known once the sound has risen out of it again.
    private static List<int> Strikes(ReadOnlySpan<float> heights, int offset)
    {
        var strikes = new List<int>();
        var (peak, valley, bottom, falling) = (0f, float.PositiveInfinity, 0, false);
        for (var i = 0; i < heights.Length; i++)
        {
            // What lies under the floor is no deeper than the floor.
            var height = Math.Max(1, heights[i]);
            if (!falling)
            {
                peak = Math.Max(peak, height);
                if (height * DipRatio > peak)
                    continue;
                (falling, valley, bottom) = (true, height, i);
            }

            valley = Math.Min(valley, height);
            bottom = height <= BottomRatio * valley ? i : bottom;
            if (height < DipRatio * valley)
                continue;
            if (IsStrike(heights, bottom))
                strikes.Add(offset + bottom + 1);
            (falling, peak) = (false, height);
        }

        return strikes;
    }

    private static bool IsStrike(ReadOnlySpan<float> heights, int bottom)
    {
        for (var i = Math.Max(0, bottom - 1); i < Math.Min(heights.Length - StrikeSteps, bottom + StrikeSteps); i++)
        {
            if (heights[i + StrikeSteps] >= StrikeRatio * Math.Max(1, heights[i]))
                return true;
        }

        return false;
    }
}
