namespace Athwart.Jobs.Shape;

/// <summary>What a step does over frequency, measured from what it makes of an impulse.</summary>
/// <param name="Hertz">Frequencies, ascending.</param>
/// <param name="Mid">Gain of the mid at each in decibels; −∞ for nothing.</param>
/// <param name="Side">Gain of the side at each.</param>
/// <param name="MidToSide">What of the mid is found in the side.</param>
/// <param name="SideToMid">What of the side is found in the mid.</param>
public sealed record StepResponse(IReadOnlyList<double> Hertz, IReadOnlyList<double> Mid, IReadOnlyList<double> Side, IReadOnlyList<double> MidToSide, IReadOnlyList<double> SideToMid)
{
    private const int Points = 240;

    /// <summary>Measures a step that treats every sound alike.</summary>
    /// <param name="step">The step; its kind says whether it does (<see cref="StepKind.FollowsSound"/>).</param>
    /// <param name="place">Where.</param>
    public static StepResponse Measure(TreatmentStep step, StepPlace place)
    {
        ArgumentNullException.ThrowIfNull(step);
        var highest = place.SampleRateHertz * 0.475;
        double[] hertz = [.. Enumerable.Range(0, Points).Select(n => 20 * Math.Pow(highest / 20, n / (Points - 1.0)))];
        var (midMid, midSide) = Impulse(step, place, 1, 0);
        var (sideMid, sideSide) = Impulse(step, place, 0, 1);
        double[] Gains(double[] response) => [.. hertz.Select(f => 20 * Math.Log10(Magnitude(response, f / place.SampleRateHertz)))];
        return new(hertz, Gains(midMid), Gains(sideSide), Gains(midSide), Gains(sideMid));
    }

    private static (double[] Mid, double[] Side) Impulse(TreatmentStep step, StepPlace place, double mid, double side)
    {
        var stage = StepStages.Make(step, place);
        var length = (int)Math.Min(1 << 18, Math.Max(place.SampleRateHertz / 2, stage.SettlingFrames) + stage.LatencyFrames + 1);
        double[] mids = new double[length], sides = new double[length];
        (mids[0], sides[0]) = (mid, side);
        stage.Begin(0);
        stage.Process(mids, sides);
        return (mids, sides);
    }

    // One bin of a Fourier transform, the phasor turned step by step.
    private static double Magnitude(double[] samples, double cycles)
    {
        var (sin, cos) = Math.SinCos(-2 * Math.PI * cycles);
        double re = 0, im = 0, c = 1, s = 0;
        foreach (var x in samples)
        {
            (re, im) = (re + (x * c), im + (x * s));
            (c, s) = ((c * cos) - (s * sin), (c * sin) + (s * cos));
        }

        return Math.Sqrt((re * re) + (im * im));
    }
}
