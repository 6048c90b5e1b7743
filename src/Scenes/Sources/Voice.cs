using Athwart.Scenes.Numbers;

namespace Athwart.Scenes.Sources;

/// <summary>Something like a voice: syllables of glottal pulses through formants, some with a hiss before; root mean square 1 while it speaks.</summary>
/// <param name="FromSeconds">When it starts, seconds of the source's time.</param>
/// <param name="ToSeconds">When it ends.</param>
/// <param name="PitchHertz">About 110 for a man, 210 for a woman.</param>
public sealed record Voice(double FromSeconds, double ToSeconds, double PitchHertz = 120) : SourceSignal
{
    /// <summary>Formants of five vowels in hertz, rounded; from memory.</summary>
    private static readonly double[][] Vowels = [[750, 1200, 2500], [500, 1800, 2500], [300, 2200, 2900], [450, 850, 2500], [320, 800, 2300]];

    /// <inheritdoc/>
    public override IReadOnlyList<double> Onsets => [FromSeconds];

    /// <inheritdoc/>
    internal override double[] Render(SignalGrid grid, Chance chance)
    {
        var samples = new double[grid.Count];
        var (start, number) = (FromSeconds, 0);
        while (start < ToSeconds - 0.05)
        {
            var syllable = chance.Fork("syllable", number++);
            var length = Math.Min(syllable.Between(0.12, 0.28), ToSeconds - start);
            Speak(samples, grid, syllable, start, length);
            start += length + (syllable.Unit() < 0.2 ? syllable.Between(0.1, 0.25) : 0.02);
        }

        var rms = Levels.Rms(samples) * Math.Sqrt(samples.Length / Math.Max(1, (ToSeconds - FromSeconds) * grid.Rate));
        if (rms > 0)
            Levels.Scale(samples, 1 / rms);
        return samples;
    }

    private void Speak(double[] samples, SignalGrid grid, Chance chance, double start, double length)
    {
        var first = (int)Math.Ceiling((start - grid.FirstSeconds) * grid.Rate);
        var count = Math.Min((int)(length * grid.Rate), grid.Count - first);
        if (first < 0 || count <= 0)
            return;
        var vowel = Vowel(grid.Rate, count, chance);
        var hiss = chance.Unit() < 0.4 ? Hiss(grid, Math.Min(count, (int)(0.08 * grid.Rate)), chance) : [];
        for (var i = 0; i < count; i++)
            samples[first + i] += vowel[i] * Math.Sqrt(Math.Sin(Math.PI * (i + 0.5) / count));
        for (var i = 0; i < hiss.Length; i++)
            samples[first + i] += 0.3 * hiss[i] * Math.Sin(Math.PI * (i + 0.5) / hiss.Length);
    }

    private double[] Vowel(double rate, int count, Chance chance)
    {
        var formants = Vowels[(int)(chance.Unit() * Vowels.Length)];
        var filters = formants.Select((hertz, k) => new FilterChain(FilterDesigns.Band(hertz, rate, 8 + (3 * k)))).ToArray();
        var tilt = new FilterChain(FilterDesigns.Low1(400, rate));
        var pitch = PitchHertz * chance.Ratio(0.85, 1.2);
        var (fall, phase, samples) = (chance.Between(-0.15, 0.05), 0.0, new double[count]);
        for (var i = 0; i < count; i++)
        {
            phase += pitch * (1 + (fall * i / count)) / rate;
            var pulse = phase >= 1 ? Math.Sqrt(rate / pitch) : 0;
            phase -= Math.Floor(phase);
            var glottis = tilt.Next(pulse + (0.05 * chance.Normal()));
            samples[i] = (0.3 * glottis) + filters[0].Next(glottis) + (0.7 * filters[1].Next(glottis)) + (0.5 * filters[2].Next(glottis));
        }

        return SignalGrid.ToUnitRms(samples);
    }

    private static double[] Hiss(SignalGrid grid, int count, Chance chance) =>
        SignalGrid.ToUnitRms(new ShapedNoise(chance, new([FilterDesigns.High2(3000, grid.Rate), .. FilterDesigns.Low4(Math.Min(9000, grid.Highest), grid.Rate)]), grid.Rate, 1).Take(count));
}
