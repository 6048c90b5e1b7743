namespace Athwart.Metering;

/// <summary>Counts flat tops by polarity and level in steps of 0.1 dB, to see whether they all lie at one ceiling.</summary>
internal sealed class CeilingHistogram
{
    internal const int BinsPerDecibel = 10, HighestDecibels = 20, Bins = 61 * BinsPerDecibel;
    private readonly long[][] _counts = [new long[Bins], new long[Bins]];

    /// <summary>Counts one flat top.</summary>
    public void Add(float level)
    {
        var bin = (int)((HighestDecibels - (20 * Math.Log10(Math.Abs(level)))) * BinsPerDecibel);
        _counts[level > 0 ? 0 : 1][Math.Clamp(bin, 0, Bins - 1)]++;
    }

    /// <summary>The share within 0.2 dB of the highest flat top of the same polarity; 0 when there is none.</summary>
    public double ShareAtCeiling()
    {
        var (all, near) = (0L, 0L);
        foreach (var counts in _counts)
        {
            var top = Array.FindIndex(counts, c => c > 0);
            if (top < 0)
                continue;
            all += counts.Sum();
            near += counts.Skip(top).Take(3).Sum();
        }

        return all > 0 ? (double)near / all : 0;
    }
}
