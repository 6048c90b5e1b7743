namespace Athwart.Metering.LineUp;

/// <summary>The direct part of one sound in both channels, and the noise just before it.</summary>
internal sealed class DirectSound
{
    private const int NoiseStretches = 16;
    private const int FewestNoiseStretches = 3;
    private const double NoiseGapMilliseconds = 4;

    /// <summary>First frame of the sound.</summary>
    public required int Onset { get; init; }

    /// <summary>The window it was cut with.</summary>
    public required DirectWindow Window { get; init; }

    /// <summary>What was heard, noise and all.</summary>
    public required PairPowers Heard { get; init; }

    /// <summary>What was heard just before, the mean of several stretches.</summary>
    public required PairPowers Noise { get; init; }

    /// <summary>Whether it goes on, as a voice does, so that the window holds reflections too.</summary>
    public bool IsSustained { get; init; }

    /// <summary>Measures one sound; null when it lies at the edge of the take.</summary>
    /// <param name="pair">Both channels.</param>
    /// <param name="window">What is cut.</param>
    /// <param name="onset">Its first frame.</param>
    /// <param name="quietBefore">The frame before which nothing sounded: its onset, or that of the first syllable of the voice it belongs to.</param>
    /// <param name="lag">Frames by which the second channel is cut later.</param>
    /// <param name="sustained">Whether it goes on.</param>
    public static DirectSound? Measure(SoundPair pair, DirectWindow window, int onset, int quietBefore, int lag, bool sustained)
    {
        if (PairPowers.Of(pair, window, onset, lag) is not { } heard)
            return null;
        var noise = new PairPowers(window.Bins);
        var stretches = new List<PairPowers>();
        var at = quietBefore - pair.Frames(NoiseGapMilliseconds) - Math.Abs(lag) - window.Length;
        for (; stretches.Count < NoiseStretches && at >= window.Lead; at -= window.Length)
        {
            if (PairPowers.Of(pair, window, at, lag) is { } stretch)
                stretches.Add(stretch);
        }

        if (stretches.Count < FewestNoiseStretches)
            return null;
        foreach (var stretch in stretches)
            noise.Add(stretch, 1.0 / stretches.Count);
        return new() { Onset = onset, Window = window, Heard = heard, Noise = noise, IsSustained = sustained };
    }

    /// <summary>The same with the channels changed over, so that A is the mid.</summary>
    public DirectSound Swapped() => new() { Onset = Onset, Window = Window, Heard = Heard.Swapped(), Noise = Noise.Swapped(), IsSustained = IsSustained };

    /// <summary>Power of A and of B in a band without the noise, and the noise.</summary>
    public (double A, double B, double NoiseA, double NoiseB) Band(double fromHertz, double toHertz)
    {
        var (a, b, na, nb) = (0.0, 0.0, 0.0, 0.0);
        var (from, to) = (Window.Bin(fromHertz), Window.Bin(toHertz));
        for (var k = from; k <= to; k++)
            (a, b, na, nb) = (a + Heard.A[k], b + Heard.B[k], na + Noise.A[k], nb + Noise.B[k]);
        return (a - na, b - nb, na, nb);
    }

    /// <summary>B over A in dB in a band; a channel lost in the noise counts as just that noise, so the answer is then a bound.</summary>
    public double RatioDecibels(double fromHertz, double toHertz)
    {
        var (a, b, na, nb) = Band(fromHertz, toHertz);
        return Decibels(Math.Max(b, nb) / Math.Max(a, na));
    }

    /// <summary>Signal over noise in dB of A and of B in a band; −∞ when nothing stands out.</summary>
    public (double A, double B) SignalOverNoise(double fromHertz, double toHertz)
    {
        var (a, b, na, nb) = Band(fromHertz, toHertz);
        return (Over(a, na), Over(b, nb));
    }

    public static double Decibels(double powerRatio) => 10 * Math.Log10(powerRatio);

    // Digital silence has no noise; 120 dB is as good as any.
    private static double Over(double signal, double noise) => signal <= 0 ? double.NegativeInfinity : Math.Min(120, Decibels(signal / Math.Max(noise, double.Epsilon)));
}
