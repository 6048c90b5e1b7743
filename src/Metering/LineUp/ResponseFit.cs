namespace Athwart.Metering.LineUp;

/// <summary>The side's response against the mid's in third octaves, from the directions where the side picks up well.</summary>
internal static class ResponseFit
{
    /// <summary>The furthest a correction goes, either way, in dB.</summary>
    public const double MostCorrectionDecibels = 12;

    private const double LeastSignalOverNoise = 10;
    private const double LeastCoherence = 0.8;
    private const double MostUncertainty = 2;
    private const double HighestHertz = 20000;
    private const double NyquistShare = 0.9;

    /// <summary>Every band that the window has room for.</summary>
    /// <param name="directions">A the mid, B the side.</param>
    /// <param name="gainDecibels">The gain offset.</param>
    /// <param name="expected">Side over mid in dB that a rig without offset has in a direction.</param>
    public static IReadOnlyList<ResponseBand> Measure(IReadOnlyList<DirectionSums> directions, Estimate gainDecibels, Func<LineUpDirection, double> expected)
    {
        var sideways = directions.Where(d => d.IsSideways).ToList();
        if (sideways.Count == 0)
            return [];
        var window = sideways[0].Sounds[0].Window;
        return ThirdOctave.Between(window.LowestHertz, Math.Min(HighestHertz, NyquistShare * window.Rate / 2))
            .Select(band => Band(band, Mismatch(sideways, band, gainDecibels, expected)))
            .ToList();
    }

    private static ResponseBand Band(int band, Estimate mismatch) =>
        new(ThirdOctave.NominalHertz(band), mismatch, mismatch.IsKnown ? Math.Clamp(-mismatch.Value, -MostCorrectionDecibels, MostCorrectionDecibels) : 0);

    private static Estimate Mismatch(List<DirectionSums> directions, int band, Estimate gain, Func<LineUpDirection, double> expected)
    {
        if (!gain.IsKnown)
            return Estimate.CannotTell("the gain offset is not known");
        var each = directions
            .Select(d => Direction(d, band) is { IsKnown: true } e ? e with { Value = e.Value - expected(d.Direction) - gain.Value } : Estimate.CannotTell("noise"))
            .Where(e => e.IsKnown)
            .ToList();
        if (each.Count == 0)
            return Estimate.CannotTell("mid or side is too near the noise, or they are not coherent");
        var mean = each.Average(e => e.Value);
        var apart = each.Max(e => e.Value) - each.Min(e => e.Value);
        var uncertainty = Math.Max(Math.Sqrt(each.Sum(e => e.Uncertainty * e.Uncertainty)) / each.Count, apart / 2);
        return uncertainty <= MostUncertainty
            ? Estimate.Of(mean, uncertainty)
            : Estimate.CannotTell("the sounds, or left and right, do not agree");
    }

    private static Estimate Direction(DirectionSums direction, int band)
    {
        var (from, to) = (ThirdOctave.From(band), ThirdOctave.To(band));
        var sounds = direction.Sounds.Where(s => StandsOut(s, from, to)).ToList();
        if (sounds.Count == 0)
            return Estimate.CannotTell("noise");
        var window = sounds[0].Window;
        var independent = Math.Max(1, (window.Bin(to) - window.Bin(from)) / window.Oversampling);
        var ratios = sounds.Select(s => s.Band(from, to)).ToList();
        var theory = Robust.Median(ratios.Select(r => 20 / Math.Log(10) * Math.Sqrt(((r.NoiseA / r.A) + (r.NoiseB / r.B)) / (2 * independent))));
        var (value, deviation) = Robust.Centre(ratios.Select(r => DirectSound.Decibels(r.B / r.A)).ToList(), theory);
        return Estimate.Of(value, DirectionSums.Coverage * deviation);
    }

    private static bool StandsOut(DirectSound sound, double from, double to)
    {
        var (a, b) = sound.SignalOverNoise(from, to);
        if (Math.Min(a, b) < LeastSignalOverNoise)
            return false;
        var (re, im) = (0.0, 0.0);
        var (first, last) = (sound.Window.Bin(from), sound.Window.Bin(to));
        for (var k = first; k <= last; k++)
            (re, im) = (re + sound.Heard.CrossReal[k], im + sound.Heard.CrossImaginary[k]);
        var (pa, pb, na, nb) = sound.Band(from, to);
        return ((re * re) + (im * im)) / ((pa + na) * (pb + nb)) >= LeastCoherence;
    }
}
