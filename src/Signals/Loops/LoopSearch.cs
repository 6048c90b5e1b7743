namespace Athwart.Signals.Loops;

/// <summary>Looks for two places of a take that sound alike and are uneventful, so that one can be led over into the other.</summary>
public static class LoopSearch
{
    /// <summary>As many places are compared at most; a longer take is looked at in wider steps.</summary>
    private const int MostPlaces = 1500;

    // What a decibel of unrest inside the cross-fade counts against one of difference between its two sides.
    private const double UnrestWeight = 0.5;

    /// <summary>What a loop of half the longest length costs against the longest, decibels.</summary>
    private const double ShorterCost = 0.5;

    /// <summary>Finds the best pairs, the best first, none within a cross-fade of a better one.</summary>
    /// <param name="levels">Levels in decibels: step after step, each of <paramref name="rows"/> rows, finite.</param>
    /// <param name="rows">Bands and channels of a step, 1 or more.</param>
    /// <param name="crossfadeSteps">Steps of the cross-fade, 1 or more.</param>
    /// <param name="leastSteps">Shortest loop, at least the cross-fade.</param>
    /// <param name="most">How many pairs are wanted, 1 or more.</param>
    /// <returns>Empty when the take is too short.</returns>
    public static IReadOnlyList<LoopPlaces> Find(ReadOnlySpan<float> levels, int rows, int crossfadeSteps, int leastSteps, int most)
    {
        var steps = levels.Length / rows;
        var room = steps - (2 * crossfadeSteps) - leastSteps;
        if (room < 0 || leastSteps < crossfadeSteps)
            return [];
        var stride = Math.Max(1, (steps + MostPlaces - 1) / MostPlaces);
        var places = new List<int>();
        for (var at = crossfadeSteps; at <= steps - crossfadeSteps; at += stride)
            places.Add(at);
        var (means, unrest) = Windows(levels, rows, crossfadeSteps, places);
        var found = new List<LoopPlaces>();
        var longest = (double)(places[^1] - places[0]);
        for (var i = 0; i < places.Count; i++)
        {
            for (var j = places.Count - 1; j > i && places[j] - places[i] >= leastSteps; j--)
            {
                var length = places[j] - places[i];
                var cost = Distance(means, rows, i, j) + (UnrestWeight * (unrest[i] + unrest[j]) / 2) + (ShorterCost * Math.Log2(longest / length));
                Keep(found, new(places[i], places[j], cost), crossfadeSteps, most);
            }
        }

        return found;
    }

    // Before and after each place separately: the sound that comes must fit what leaves, and go on like it.
    private static (float[] Means, double[] Unrest) Windows(ReadOnlySpan<float> levels, int rows, int reach, List<int> places)
    {
        var (means, unrest) = (new float[places.Count * 2 * rows], new double[places.Count]);
        for (var p = 0; p < places.Count; p++)
        {
            for (var half = 0; half < 2; half++)
            {
                var from = places[p] - (half == 0 ? reach : 0);
                for (var row = 0; row < rows; row++)
                {
                    double sum = 0, squares = 0;
                    for (var step = from; step < from + reach; step++)
                    {
                        var level = (double)levels[(step * rows) + row];
                        sum += level;
                        squares += level * level;
                    }

                    var mean = sum / reach;
                    means[(((p * 2) + half) * rows) + row] = (float)mean;
                    unrest[p] += Math.Max(0, (squares / reach) - (mean * mean));
                }
            }

            unrest[p] = Math.Sqrt(unrest[p] / (2 * rows));
        }

        return (means, unrest);
    }

    private static double Distance(float[] means, int rows, int i, int j)
    {
        var sum = 0.0;
        for (var k = 0; k < 2 * rows; k++)
        {
            var difference = means[(i * 2 * rows) + k] - means[(j * 2 * rows) + k];
            sum += difference * difference;
        }

        return Math.Sqrt(sum / (2 * rows));
    }

    private static void Keep(List<LoopPlaces> found, LoopPlaces places, int apart, int most)
    {
        if (found.Count == most && places.Cost >= found[^1].Cost)
            return;
        var near = found.FindIndex(f => Math.Abs(f.From - places.From) < apart && Math.Abs(f.To - places.To) < apart);
        if (near >= 0 && found[near].Cost <= places.Cost)
            return;
        if (near >= 0)
            found.RemoveAt(near);
        found.Insert(found.FindIndex(f => f.Cost > places.Cost) is var at and >= 0 ? at : found.Count, places);
        if (found.Count > most)
            found.RemoveAt(most);
    }
}

/// <summary>Where a loop may begin and end.</summary>
/// <param name="From">The step of its first frame.</param>
/// <param name="To">The step after its last.</param>
/// <param name="Cost">How unlike and uneven the two places are, decibels; less is better.</param>
public readonly record struct LoopPlaces(int From, int To, double Cost);
