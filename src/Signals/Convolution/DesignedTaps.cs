namespace Athwart.Signals.Convolution;

/// <summary>Remembers the taps of filters designed last: a preview opened again, or the same steps on the next take, need not wait for them.</summary>
/// <remarks>At most <see cref="Most"/> designs of up to 256 KiB are kept, the oldest given up first. Safe to call from several threads. A design is not changed by anyone.</remarks>
internal static class DesignedTaps
{
    internal const int Most = 16;

    private static readonly Lock Turn = new();
    private static readonly List<((object Settings, string Of, int SampleRateHertz) Key, double[] Taps)> Kept = [];

    /// <summary>The taps for these settings, designed where they are not remembered.</summary>
    /// <param name="settings">Settings that are equal by value to others that give the same taps.</param>
    /// <param name="of">Which of several curves of the settings it is.</param>
    /// <param name="sampleRateHertz">Sample rate in hertz.</param>
    /// <param name="design">Designs them; outside any lock, so that two threads at once may both do it, with one result.</param>
    public static double[] Of(object settings, string of, int sampleRateHertz, Func<double[]> design)
    {
        var key = (settings, of, sampleRateHertz);
        if (Find(key) is { } there)
            return there;
        var taps = design();
        lock (Turn)
        {
            if (Kept.Count == Most)
                Kept.RemoveAt(0);
            Kept.Add((key, taps));
        }

        return taps;
    }

    private static double[]? Find((object Settings, string Of, int SampleRateHertz) key)
    {
        lock (Turn)
        {
            var at = Kept.FindIndex(k => k.Key.Equals(key));
            if (at < 0)
                return null;
            var found = Kept[at];
            Kept.RemoveAt(at);
            Kept.Add(found);
            return found.Taps;
        }
    }
}
