namespace Athwart.Metering.Events;

/// <summary>Where a sound that dies away exponentially has the power of the floor, given normal noise.</summary>
/// <remarks>
/// Of all places that are about as likely as the likeliest, the one nearest to the sound: many rows are asked, the furthest answer counts,
/// and the noise of a narrow band would otherwise have the last word.
/// </remarks>
internal static class EdgeFit
{
    // Natural logarithm of how much less likely a place may be, and how much of the freedom of white noise a coloured band keeps.
    private const double AboutAsLikely = 1.1;
    private const double KeptFreedom = 0.7;

    /// <summary>Rates of decay that are tried, dB a second: from the tail of a hall to a sound that stops.</summary>
    private static readonly double[] Rates = [20, 30, 45, 70, 100, 150, 225, 340, 500, 750, 1100, 2000, 4000];

    /// <summary>Finds the place.</summary>
    /// <param name="powers">Powers of a row, a step each.</param>
    /// <param name="floor">The floor's power there, above 0.</param>
    /// <param name="from">The step to begin at, where the sound still stands well out.</param>
    /// <param name="direction">1 to go on towards its end, −1 to go back towards its start.</param>
    /// <param name="count">How many steps to look at, 1 or more.</param>
    /// <param name="freedom">Degrees of freedom of a step's power.</param>
    /// <returns>The place, in steps with halves.</returns>
    public static double Find(ReadOnlySpan<float> powers, double floor, int from, int direction, int count, double freedom)
    {
        count = Math.Min(count, direction > 0 ? powers.Length - from : from + 1);
        var costs = new double[(2 * count) + 1];
        Array.Fill(costs, double.PositiveInfinity);
        foreach (var rate in Rates)
        {
            var table = Table(rate, count);
            for (var half = 0; half < costs.Length; half++)
                costs[half] = Math.Min(costs[half], Cost(powers, floor, from, direction, table.AsSpan((2 * count) - half)));
        }

        var enough = costs.Min() + (2 * AboutAsLikely / (KeptFreedom * freedom));
        var place = Array.FindIndex(costs, cost => cost <= enough) / 2.0;
        return direction > 0 ? from + place : from + 1 - place;

        double Cost(ReadOnlySpan<float> all, double low, int start, int way, ReadOnlySpan<(double Power, double Log)> model)
        {
            var sum = 0.0;
            for (var k = 0; k < count; k++)
            {
                var (power, log) = model[2 * k];
                sum += log + (all[start + (way * k)] / (low * power));
            }

            return sum;
        }
    }

    // Sound and floor together over the floor, every half step from 'count' before the place to 'count' after it.
    private static (double Power, double Log)[] Table(double rate, int count)
    {
        var table = new (double, double)[(4 * count) + 2];
        for (var i = 0; i < table.Length; i++)
        {
            var steps = ((i - (2 * count)) / 2.0) + 0.5;
            var power = 1 + Math.Pow(10, Math.Min(12, -rate * steps / LevelTrack.StepsPerSecond / 10));
            table[i] = (power, Math.Log(power));
        }

        return table;
    }
}
