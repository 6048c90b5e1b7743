using static System.FormattableString;

namespace Athwart.Microphones.Choosing;

/// <summary>Gives ordered candidates their places, marks the trade-offs among them, and says why each is where it is.</summary>
internal static class Ranking
{
    public static IReadOnlyList<PairChoice> Of(IReadOnlyList<Candidate> ranked, Wishes wishes)
    {
        var placed = new List<PairChoice>(ranked.Count);
        for (var n = 0; n < ranked.Count; n++)
            placed.Add(Placed(ranked[n], n + 1, ranked, wishes));
        return placed;
    }

    private static PairChoice Placed(Candidate c, int place, IReadOnlyList<Candidate> all, Wishes wishes) => new()
    {
        Place = place,
        Mid = c.Mid,
        Side = c.Side,
        Recorder = c.Recorder,
        SideLevel = c.SideLevel,
        Coverage = c.Coverage,
        CoverageErrorDegrees = c.CoverageError,
        NoiseDecibelsA = c.Noise,
        MonoNoiseDecibelsA = c.MonoNoise,
        MidGainDecibels = c.MidGain,
        SideGainDecibels = c.SideGain,
        ToBuy = c.ToBuy,
        Cost = c.Cost,
        WeightGrams = c.Weight,
        NotKnown = c.NotKnown,
        Parts = c.Parts,
        IsTradeOff = IsTradeOff(c, all),
        Reason = Reason(c, place, all, wishes),
    };

    // The best trade-offs are those that nobody beats in cost, noise and coverage together; what is not known cannot be compared.
    private static bool IsTradeOff(Candidate c, IReadOnlyList<Candidate> all) =>
        c.Noise is not null && c.Comparable is not null && !all.Any(other => Beats(other, c));

    private static bool Beats(Candidate a, Candidate b)
    {
        if (a.Noise is not { } noise || a.Comparable is not { } cost)
            return false;
        var (errorA, errorB) = (Step(a.CoverageError), Step(b.CoverageError));
        var (noiseA, noiseB) = (Math.Round(noise, 1), Math.Round(b.Noise!.Value, 1));
        return errorA <= errorB && noiseA <= noiseB && cost <= b.Comparable && (errorA < errorB || noiseA < noiseB || cost < b.Comparable);
    }

    // Half a decibel of side level is some 3 degrees: nearer than that is luck of the grid.
    private static double Step(double? coverageError) => Math.Floor((coverageError ?? 0) / 5);

    private static string Reason(Candidate c, int place, IReadOnlyList<Candidate> all, Wishes wishes)
    {
        var words = new List<string>();
        if (c.CoverageError is { } error)
            words.Add(error < 0.5 ? "covers what is wanted" : Invariant($"covers {error:0}° {(c.Coverage!.Value.Value < wishes.Coverage!.Value.Value ? "less" : "more")} than wanted"));
        if (c.Noise is { } noise)
            words.Add(noise <= all.Min(o => o.Noise) + 0.05 ? Invariant($"the quietest pair with {noise:0.0} dBA") : Invariant($"{noise:0.0} dBA, {noise - all.Min(o => o.Noise)!.Value:0.0} dB more than the quietest pair"));
        words.Add(c.ToBuy.Count == 0 ? "nothing to buy" : c.Cost.Count == 0 ? "cost not known" : string.Join(" and ", c.Cost.Select(p => p.ToString())) + " to buy");
        var text = string.Join(", ", words);
        if (c.NotKnown.Count > 0)
            return $"{text}; after the others: {string.Join("; ", c.NotKnown)}";
        return place == 1 || Behind(c, all[0]) is not { } behind ? text : $"{text}; behind the first by {behind}";
    }

    private static string? Behind(Candidate c, Candidate first)
    {
        var most = c.Parts.Zip(first.Parts, (mine, best) => (mine.Matter, Loss: mine.Points - best.Points)).MaxBy(p => p.Loss);
        return !(most.Loss > 0) ? null : most.Matter switch
        {
            Matter.Coverage => "its coverage",
            Matter.Noise => "its noise",
            Matter.Cost => "its cost",
            _ => "its weight",
        };
    }
}
