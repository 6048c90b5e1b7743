namespace Athwart.Metering.Events;

/// <summary>Puts sounds that are alike together.</summary>
public static class SoundFamilies
{
    /// <summary>Distance, in decibels, up to which sounds count as variations of one; common practice, no source.</summary>
    public const double UsualDistance = 6;

    /// <summary>The families, each in order of its members and the families in order of their first: two join while the mean distance between their members is within the limit, the closest first.</summary>
    /// <param name="prints">The sounds.</param>
    /// <param name="distance">The limit, decibels, 0 or more.</param>
    /// <returns>Indices into <paramref name="prints"/>; each is in one family.</returns>
    public static IReadOnlyList<IReadOnlyList<int>> Group(IReadOnlyList<SoundPrint> prints, double distance = UsualDistance)
    {
        ArgumentNullException.ThrowIfNull(prints);
        var families = Enumerable.Range(0, prints.Count).Select(i => new List<int> { i }).ToList();
        var apart = new double[prints.Count, prints.Count];
        for (var i = 0; i < prints.Count; i++)
        {
            for (var j = 0; j < i; j++)
                apart[i, j] = apart[j, i] = prints[i].DistanceTo(prints[j]);
        }

        while (Closest(families, apart) is { } pair && pair.Distance <= distance)
        {
            families[pair.First].AddRange(families[pair.Second]);
            families.RemoveAt(pair.Second);
        }

        return [.. families.Select(f => f.Order().ToList()).OrderBy(f => f[0])];
    }

    private static (int First, int Second, double Distance)? Closest(List<List<int>> families, double[,] apart)
    {
        (int First, int Second, double Distance)? closest = null;
        for (var i = 0; i < families.Count; i++)
        {
            for (var j = i + 1; j < families.Count; j++)
            {
                var mean = families[i].Average(a => families[j].Average(b => apart[a, b]));
                if (closest is null || mean < closest.Value.Distance)
                    closest = (i, j, mean);
            }
        }

        return closest;
    }
}
