namespace Athwart.Metering.LineUp;

/// <summary>The sounds of a take, assigned to the directions of the order.</summary>
internal sealed class LineUpSounds
{
    private const double SustainedFromMilliseconds = 25;
    private const double SustainedToMilliseconds = 60;
    private const double SustainedRatio = 0.15;

    /// <summary>Where they begin.</summary>
    public required IReadOnlyList<int> Onsets { get; init; }

    /// <summary>The direction of each, as an index into <see cref="Directions"/>; null when they cannot be assigned.</summary>
    public required int[]? Groups { get; init; }

    /// <summary>The directions in the order they came.</summary>
    public required IReadOnlyList<LineUpDirection> Directions { get; init; }

    /// <summary>What was taken for granted; empty when nothing was.</summary>
    public string Assumption { get; init; } = "";

    /// <summary>Whether the usual order was taken because none was given.</summary>
    public bool OrderIsAssumed { get; init; }

    /// <summary>Finds the sounds; when the pauses do not fit the order, those far below the loudest are left out.</summary>
    public static LineUpSounds Find(SoundPair pair, IReadOnlyList<LineUpDirection>? order)
    {
        var all = OnsetFinder.Find(pair);
        var levels = all.Select(o => Level(pair, o, 0, 5)).ToList();
        var loudest = levels.DefaultIfEmpty(0).Max();
        LineUpSounds? first = null;
        foreach (var share in (ReadOnlySpan<double>)[0, 1e-4, 1e-3, 1e-2])
        {
            var assigned = Assign([.. all.Where((_, i) => levels[i] >= share * loudest)], order, pair.Rate);
            if (assigned.Groups is not null)
                return assigned;
            first ??= assigned;
        }

        return first!;
    }

    /// <summary>Whether a sound goes on at full strength after its onset, as a voice does and a clap does not, even in a room.</summary>
    public static bool IsSustained(SoundPair pair, int onset) =>
        Level(pair, onset, SustainedFromMilliseconds, SustainedToMilliseconds) > SustainedRatio * Level(pair, onset, 0, 4);

    private static LineUpSounds Assign(List<int> onsets, IReadOnlyList<LineUpDirection>? order, int rate)
    {
        if (order is not null)
        {
            var named = order.Where(d => !d.IsSilence).ToList();
            var heard = named.Where(d => d.Cosine > -0.9).ToList();
            var divided = SoundGroups.Divide(onsets, named.Count, rate);
            if (divided is not null || heard.Count == named.Count || heard.Count == 0)
                return new() { Onsets = onsets, Groups = divided, Directions = named };
            // Neither a cardioid nor a figure-8 hears the rear.
            return new()
            {
                Onsets = onsets,
                Groups = SoundGroups.Divide(onsets, heard.Count, rate),
                Directions = heard,
                Assumption = "The rear was not heard, as a cardioid would have it.",
            };
        }

        var (count, groups) = SoundGroups.DivideAtMost(onsets, LineUpDirection.UsualOrder.Count, rate);
        var directions = LineUpDirection.UsualOrder.Take(groups is null ? LineUpDirection.UsualOrder.Count : count).ToList();
        return new()
        {
            Onsets = onsets,
            Groups = groups,
            Directions = directions,
            OrderIsAssumed = true,
            Assumption = $"No order was given; the usual one was taken: {string.Join(", ", directions.Select(d => d.Name))}.",
        };
    }

    /// <summary>Mean square of both channels in a stretch after an onset, above 400 Hz.</summary>
    private static double Level(SoundPair pair, int onset, double fromMilliseconds, double toMilliseconds)
    {
        var (from, to) = (Math.Min(pair.Length, onset + pair.Frames(fromMilliseconds)), Math.Min(pair.Length, onset + pair.Frames(toMilliseconds)));
        var sum = 0.0;
        for (var i = from; i < to; i++)
            sum += ((double)pair.Cut[0][i] * pair.Cut[0][i]) + ((double)pair.Cut[1][i] * pair.Cut[1][i]);
        return to > from ? sum / (to - from) : 0;
    }
}
