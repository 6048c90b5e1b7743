namespace Athwart.Microphones.Choosing;

/// <summary>Turns coverage error, noise, cost and weight into points that can be added; lower is better.</summary>
/// <remarks>
/// One point is 10° of coverage, 3 dB of noise (twice the power), a tenth of the budget or 100 g: steps that a recordist would notice
/// alike. A choice of ours, no source. The first matter counts 1, the second ½, the third ¼.
/// </remarks>
internal sealed class Scoring(Wishes wishes, double stepOfCost)
{
    private const double StepOfCoverage = 10;
    private const double StepOfNoise = 3;
    private const double StepOfWeight = 100;

    // A coverage that is asked for counts for the side level, even where it does not count for the place: after all that does.
    private readonly double _coverage = WeightOf(wishes, Matter.Coverage) is > 0 and var weight ? weight : Math.ScaleB(1, -wishes.Matters.Count);
    private readonly double _noise = WeightOf(wishes, Matter.Noise);

    /// <summary>The points by which side levels of one pair are compared.</summary>
    public double LevelPoints(double coverageError, double noise) => (_coverage * coverageError / StepOfCoverage) + (_noise * noise / StepOfNoise);

    /// <summary>Gives each candidate its parts, measured from the best of all.</summary>
    public void Score(IReadOnlyList<Candidate> candidates)
    {
        var quietest = candidates.Min(c => c.Noise) ?? 0;
        foreach (var candidate in candidates)
        {
            candidate.Parts =
            [
                .. wishes.Matters.Distinct().Select((matter, n) => Part(matter, Math.ScaleB(1, -n), matter switch
                {
                    Matter.Coverage => candidate.CoverageError / StepOfCoverage,
                    Matter.Noise => (candidate.Noise - quietest) / StepOfNoise,
                    Matter.Cost => (double?)candidate.Comparable / stepOfCost,
                    _ => candidate.Weight / StepOfWeight,
                })),
            ];
        }
    }

    private static ScorePart Part(Matter matter, double weight, double? steps) => new(matter, weight, weight * (steps ?? 0));

    private static double WeightOf(Wishes wishes, Matter matter)
    {
        var place = wishes.Matters.Distinct().ToList().IndexOf(matter);
        return place < 0 ? 0 : Math.ScaleB(1, -place);
    }
}
