namespace Athwart.Metering.LineUp;

/// <summary>Which channel is the mid: a figure-8 side hardly hears the front, and turns its polarity over from left to right.</summary>
internal static class RoleDecision
{
    /// <summary>Decibels of evidence for a factor e in the odds; a side 10 degrees off its place still gives 21 dB. Our choice.</summary>
    private const double DecibelsForE = 3;
    private const double DecibelsForEUnlevelled = 6;
    private const double OddsOfFullCorrelation = 4;
    private const double LeastSignalOverNoise = 10;

    /// <summary>Decides, with A the first channel.</summary>
    public static Verdict FirstIsMid(SoundPair pair, IReadOnlyList<DirectionSums> directions)
    {
        var odds = FromFront(directions) + FromPolarity(pair, directions);
        return Verdict.FromOdds(odds, "neither a sound from the front nor the polarity of left against right tells mid from side clearly");
    }

    /// <summary>How alike the sounds of two directions are in one channel, median over pairs of sounds: −1 turned over, 1 the same.</summary>
    public static double Likeness(float[] channel, SoundPair pair, DirectionSums left, DirectionSums right)
    {
        var most = pair.Frames(0.15);
        var window = left.Sounds[0].Window;
        var values = new List<double>();
        foreach (var (l, r) in left.Sounds.SelectMany(l => right.Sounds.Select(r => (l, r))))
        {
            // The window is the left's, and a sound of the right may lie nearer to the end of the take.
            if (Math.Max(l.Onset, r.Onset) - window.Lead + window.Length > channel.Length || Math.Min(l.Onset, r.Onset) < window.Lead)
                continue;
            var correlation = LagSearch.Correlate(channel.AsSpan(l.Onset - window.Lead, window.Length), channel.AsSpan(r.Onset - window.Lead, window.Length), most);
            if (correlation is not null)
                values.Add(correlation.Max() > -correlation.Min() ? correlation.Max() : correlation.Min());
        }

        return values.Count == 0 ? 0 : Robust.Median(values);
    }

    private static double FromFront(IReadOnlyList<DirectionSums> directions)
    {
        var front = directions.FirstOrDefault(d => d.Direction.Cosine > 0.9);
        if (front is null || !Stands(front))
            return 0;
        var atFront = Ratio(front);
        var sideways = directions.Where(d => d.IsSideways && Stands(d)).Select(Ratio).ToList();
        // Left and right give the gains; without them ± 12 dB of gain may be in the ratio.
        return sideways.Count > 0 ? (sideways.Average() - atFront) / DecibelsForE : -atFront / DecibelsForEUnlevelled;
    }

    /// <summary>A clap pushes first, from wherever: the mid hears left and right alike, the figure-8 turns one over.</summary>
    private static double FromPolarity(SoundPair pair, IReadOnlyList<DirectionSums> directions)
    {
        var left = directions.FirstOrDefault(d => d.IsSideways && d.Direction.Sine > 0 && Stands(d));
        var right = directions.FirstOrDefault(d => d.IsSideways && d.Direction.Sine < 0 && Stands(d));
        if (left is null || right is null)
            return 0;
        var (a, b) = (Likeness(pair.Cut[0], pair, left, right), Likeness(pair.Cut[1], pair, left, right));
        return a * b < 0 ? OddsOfFullCorrelation * (a - b) : 0;
    }

    private static double Ratio(DirectionSums direction) =>
        Robust.Median(direction.Sounds.Select(s => s.RatioDecibels(DirectionSums.LowHertz, DirectionSums.HighHertz)));

    private static bool Stands(DirectionSums direction)
    {
        var (a, b) = direction.SignalOverNoise();
        return Math.Max(a, b) >= LeastSignalOverNoise;
    }
}
