namespace Athwart.Metering.LineUp;

/// <summary>Divides sounds into directions by the pauses between them.</summary>
internal static class SoundGroups
{
    /// <summary>How much longer the shortest pause between directions is than the longest within one.</summary>
    private const double LeastContrast = 1.5;
    private const double LeastPauseSeconds = 0.8;

    /// <summary>Divides into a number of groups.</summary>
    /// <param name="onsets">First frames, in order.</param>
    /// <param name="count">Groups wanted, 1 or more.</param>
    /// <param name="rate">Frames a second.</param>
    /// <returns>The group of each sound, from 0; null when the pauses do not divide them so.</returns>
    public static int[]? Divide(IReadOnlyList<int> onsets, int count, int rate) =>
        Contrast(onsets, count, rate) >= LeastContrast ? Numbers(onsets, count) : null;

    /// <summary>Divides into as many groups as the pauses show best, at most so many.</summary>
    public static (int Count, int[]? Groups) DivideAtMost(IReadOnlyList<int> onsets, int most, int rate)
    {
        var best = Enumerable.Range(1, most)
            .Select(k => (Count: k, Contrast: Contrast(onsets, k, rate)))
            .Where(k => k.Contrast >= LeastContrast)
            .OrderByDescending(k => k.Contrast)
            .FirstOrDefault();
        return best.Count == 0 ? (0, null) : (best.Count, Numbers(onsets, best.Count));
    }

    /// <summary>The shortest pause between groups over the longest within; 0 when there cannot be so many groups.</summary>
    private static double Contrast(IReadOnlyList<int> onsets, int count, int rate)
    {
        if (onsets.Count < count || onsets.Count == 0)
            return 0;
        var pauses = Pauses(onsets).OrderDescending().Select(p => (double)p / rate).ToList();
        if (count == 1)
            return pauses.Count == 0 || pauses[0] < 2 * LeastPauseSeconds ? LeastContrast : 0;
        if (pauses[count - 2] < LeastPauseSeconds)
            return 0;
        // One sound a direction has no pause within, and says nothing for or against another number.
        return pauses.Count < count ? LeastContrast : pauses[count - 2] / pauses[count - 1];
    }

    private static int[] Numbers(IReadOnlyList<int> onsets, int count)
    {
        var pauses = Pauses(onsets).ToList();
        var cuts = Enumerable.Range(0, pauses.Count).OrderByDescending(i => pauses[i]).Take(count - 1).ToHashSet();
        var numbers = new int[onsets.Count];
        for (var i = 1; i < numbers.Length; i++)
            numbers[i] = numbers[i - 1] + (cuts.Contains(i - 1) ? 1 : 0);
        return numbers;
    }

    private static IEnumerable<int> Pauses(IReadOnlyList<int> onsets) => Enumerable.Range(1, Math.Max(0, onsets.Count - 1)).Select(i => onsets[i] - onsets[i - 1]);
}
