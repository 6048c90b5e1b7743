namespace Athwart.Metering.LineUp;

/// <summary>The mid's pattern from how loud front, sides and rear are in it, supposing that all sounds are equally loud.</summary>
/// <remarks>
/// The level at azimuth a over the front is A + (1 − A)·cos a. From the sides alone 2 dB of unequal clapping would be 2 dB of A; the
/// rear near its null tells A far more sharply, and the sides and the polarity at the rear then only have to say on which side of the
/// cardioid it lies: below A = 0.5 the rear is turned over.
/// </remarks>
internal static class PatternFit
{
    /// <summary>How unequal two people's claps at one distance are, a standard deviation in dB: our estimate, no source.</summary>
    private const double ClapDeviation = 1.5;
    private const double MisfitOfPolarity = 10;
    private const double LeastSignalOverNoise = 10;
    private const int Steps = 400;

    /// <summary>A with its uncertainty; cannot be told without front, a side and rear, or when the levels fit no pattern.</summary>
    public static Estimate Fit(IReadOnlyList<DirectionSums> directions, SoundPair pair, float[] mid)
    {
        var front = directions.FirstOrDefault(d => d.Direction.AzimuthDegrees == 0);
        var others = directions.Where(d => d.Direction.AzimuthDegrees != 0).ToList();
        if (front is null || !others.Any(d => d.IsSideways) || !others.Any(d => d.Direction.Cosine < -0.9))
            return Estimate.CannotTell("it needs sounds from the front, from a side and from the rear");
        if (directions.Any(d => d.Sounds.Any(s => s.IsSustained)))
            return Estimate.CannotTell("a voice is not equally loud from every direction");
        var rear = others.First(d => d.Direction.Cosine < -0.9);
        var likeness = rear.SignalOverNoise().Mid > LeastSignalOverNoise ? RoleDecision.Likeness(mid, pair, front, rear) : 0;
        var weights = new double[Steps + 1];
        var least = double.PositiveInfinity;
        for (var i = 0; i <= Steps; i++)
        {
            var opposed = likeness * ((2.0 * i / Steps) - 1) < 0;
            var misfit = others.Sum(d => Misfit(front, d, (double)i / Steps)) + (opposed ? MisfitOfPolarity * Math.Abs(likeness) : 0);
            least = Math.Min(least, misfit);
            weights[i] = Math.Exp(-misfit / 2);
        }

        if (least > 9)
            return Estimate.CannotTell("front, sides and rear are as loud as no first-order pattern has them; the sounds were not equally loud, or the mid does not face the front");
        return Centre(weights);
    }

    private static double Misfit(DirectionSums front, DirectionSums direction, double a)
    {
        var pickUp = Math.Abs(a + ((1 - a) * direction.Direction.Cosine));
        var level = direction.MidDecibels - front.MidDecibels;
        var deviation = Math.Sqrt((2 * ClapDeviation * ClapDeviation) + Square(front.LoudnessDeviation) + Square(direction.LoudnessDeviation));
        var floor = -direction.SignalOverNoise().Mid;
        var expected = 20 * Math.Log10(Math.Max(pickUp, 1e-3));
        // Lost in the noise, the level is only an upper bound.
        if (floor > -3 && expected < level)
            return 0;
        return Square((level - expected) / deviation);
    }

    private static Estimate Centre(double[] weights)
    {
        var total = weights.Sum();
        var (mean, square) = (0.0, 0.0);
        for (var i = 0; i < weights.Length; i++)
            mean += weights[i] / total * i / Steps;
        for (var i = 0; i < weights.Length; i++)
            square += weights[i] / total * Square(((double)i / Steps) - mean);
        return Estimate.Of(mean, 2 * Math.Sqrt(square));
    }

    private static double Square(double x) => x * x;
}
