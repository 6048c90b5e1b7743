namespace Athwart.Metering.LineUp;

/// <summary>The sounds of one direction, with A as the mid and B as the side.</summary>
internal sealed class DirectionSums(LineUpDirection direction, IReadOnlyList<DirectSound> sounds)
{
    /// <summary>Where levels are compared: above wind, below the capsules' own ways at short waves.</summary>
    public const double LowHertz = 700;
    public const double HighHertz = 6000;

    /// <summary>The least signal over noise, in dB, of both channels for a ratio or a delay to be told.</summary>
    private const double LeastSignalOverNoise = 10;

    /// <summary>A voice's window holds reflections: no ratio is surer than this, in dB, and no delay surer than this, in frames.</summary>
    private const double SustainedDecibels = 0.75;
    private const double SustainedFrames = 0.3;

    /// <summary>Two standard deviations hold 95 in 100.</summary>
    public const double Coverage = 2;

    public LineUpDirection Direction { get; } = direction;

    public IReadOnlyList<DirectSound> Sounds { get; } = sounds;

    /// <summary>Whether the side picks up well there.</summary>
    public bool IsSideways => Math.Abs(Direction.Sine) > 0.5;

    private bool IsSustained => Sounds.Any(s => s.IsSustained);

    /// <summary>The median power of the mid, in dB.</summary>
    public double MidDecibels => Robust.Median(Sounds.Select(s => s.Band(LowHertz, HighHertz)).Select(b => DirectSound.Decibels(Math.Max(b.A, b.NoiseA))));

    /// <summary>How much the loudness varies within the direction, a standard deviation in dB.</summary>
    public double LoudnessDeviation => Robust.Deviation(Sounds.Select(s => s.Band(LowHertz, HighHertz)).Select(b => DirectSound.Decibels(Math.Max(b.A, b.NoiseA) + Math.Max(b.B, b.NoiseB))).ToList());

    /// <summary>The median signal over noise of mid and side in dB.</summary>
    public (double Mid, double Side) SignalOverNoise()
    {
        var each = Sounds.Select(s => s.SignalOverNoise(LowHertz, HighHertz)).ToList();
        return (Finite(each.Select(e => e.A)), Finite(each.Select(e => e.B)));
    }

    /// <summary>Side over mid in dB: over the third octaves that stand out of the noise, then over the sounds.</summary>
    public Estimate RatioDecibels()
    {
        var each = Sounds.Select(Ratio).Where(r => double.IsFinite(r.Decibels)).ToList();
        if (each.Count == 0)
            return Estimate.CannotTell($"from the {Direction.Name} mid or side does not stand {LeastSignalOverNoise:0} dB out of the noise");
        var (value, deviation) = Robust.Centre(each.Select(e => e.Decibels).ToList(), Robust.Median(each.Select(e => e.Deviation)));
        return Estimate.Of(value, (Coverage * deviation) + 0.02 + (IsSustained ? SustainedDecibels : 0));
    }

    /// <summary>Side over mid as an amplitude with its sign: the part of the side that has the mid's waveform.</summary>
    public Estimate SignedRatio()
    {
        var each = Sounds.Select(Signed).Where(r => double.IsFinite(r.Ratio)).ToList();
        if (each.Count == 0)
            return Estimate.CannotTell($"the mid does not stand {LeastSignalOverNoise:0} dB out of the noise from the {Direction.Name}");
        var (value, deviation) = Robust.Centre(each.Select(e => e.Ratio).ToList(), Robust.Median(each.Select(e => e.Deviation)));
        return Estimate.Of(value, Coverage * deviation);
    }

    /// <summary>Frames by which the side is late there.</summary>
    /// <param name="lag">Whole frames by which the side was cut later.</param>
    /// <param name="sign">1 when the side is in phase with the mid there, −1 when opposed, 0 when not known.</param>
    public Estimate Delay(int lag, int sign)
    {
        var fits = Sounds
            .Where(StandsOut)
            .Select(s => DelayFit.Fit(s, sign))
            .Where(f => double.IsFinite(f.Frames) && Math.Abs(f.Agreement) > 0.7)
            .ToList();
        if (fits.Count == 0)
            return Estimate.CannotTell($"from the {Direction.Name} mid or side is too weak, or their phases do not agree on one delay");
        var (value, deviation) = Robust.Centre(fits.Select(f => f.Frames).ToList(), Robust.Median(fits.Select(f => f.Deviation)));
        return Estimate.Of(lag + value, (Coverage * deviation) + (IsSustained ? SustainedFrames : 0));
    }

    private static double Finite(IEnumerable<double> values) => Robust.Median(values.Select(v => Math.Max(v, -60)));

    private static bool StandsOut(DirectSound sound)
    {
        var (a, b) = sound.SignalOverNoise(LowHertz, HighHertz);
        return Math.Min(a, b) >= LeastSignalOverNoise;
    }

    private static (double Decibels, double Deviation) Ratio(DirectSound sound)
    {
        if (!StandsOut(sound))
            return (double.NaN, double.NaN);
        var (sum, weights) = (0.0, 0.0);
        foreach (var band in ThirdOctave.Between(Math.Max(LowHertz, sound.Window.LowestHertz), Math.Min(HighHertz, 0.4 * sound.Window.Rate)))
        {
            var (a, b, na, nb) = sound.Band(ThirdOctave.From(band), ThirdOctave.To(band));
            // Inverse variance of the band's ratio in dB, but no band says more than a signal 20 dB over its noise: responses differ.
            var variance = 0.01 + Math.Max(0, na / a) + Math.Max(0, nb / b);
            if (a > 4 * na && b > 4 * nb)
                (sum, weights) = (sum + (DirectSound.Decibels(b / a) / variance), weights + (1 / variance));
        }

        if (weights == 0)
            return (double.NaN, double.NaN);
        var (pa, pb, pna, pnb) = sound.Band(LowHertz, HighHertz);
        // The ratio of two amplitudes r has the relative variance (na/a + nb/b)/(2·N) with N independent bins.
        var bins = Math.Max(1, (sound.Window.Bin(HighHertz) - sound.Window.Bin(LowHertz)) / sound.Window.Oversampling);
        return (sum / weights, 20 / Math.Log(10) * Math.Sqrt(((pna / pa) + (pnb / pb)) / (2 * bins)));
    }

    private static (double Ratio, double Deviation) Signed(DirectSound sound)
    {
        if (sound.SignalOverNoise(LowHertz, HighHertz).A < LeastSignalOverNoise)
            return (double.NaN, double.NaN);
        var (from, to) = (sound.Window.Bin(LowHertz), sound.Window.Bin(HighHertz));
        var cross = 0.0;
        for (var k = from; k <= to; k++)
            cross += sound.Heard.CrossReal[k] - sound.Noise.CrossReal[k];
        var (a, _, na, nb) = sound.Band(LowHertz, HighHertz);
        var bins = Math.Max(1, (to - from) / sound.Window.Oversampling);
        var ratio = cross / a;
        return (ratio, Math.Sqrt(((nb / a) + (ratio * ratio * na / a)) / (2 * bins)));
    }
}
