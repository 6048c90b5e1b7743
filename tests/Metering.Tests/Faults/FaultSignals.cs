using Athwart.Metering.Tests.Support;
using Athwart.Quantities;

namespace Athwart.Metering.Tests.Faults;

/// <summary>Sounds and faults in closed form.</summary>
internal static class FaultSignals
{
    /// <summary>Noise that falls 6 dB an octave above a corner, as most outdoor sound does; root mean square as given.</summary>
    public static float[] Ambience(int count, double rms, int seed, double corner = 300, int rate = Tones.Rate)
    {
        var random = new Random(seed);
        var (pole, state) = (Math.Exp(-2 * Math.PI * corner / rate), 0.0);
        // Twelve uniform numbers make a normal one of variance 1; a one-pole low-pass leaves (1 − p)/(1 + p) of it.
        var gain = rms / Math.Sqrt((1 - pole) / (1 + pole));
        var samples = new float[count];
        for (var i = 0; i < count; i++)
        {
            var normal = -6.0;
            for (var k = 0; k < 12; k++)
                normal += random.NextDouble();
            state = (pole * state) + ((1 - pole) * normal);
            samples[i] = (float)(gain * state);
        }

        return samples;
    }

    /// <summary>A clap: noise that starts at once and dies away with a time constant.</summary>
    public static void AddClap(float[] samples, int at, double amplitude, double seconds, int seed, int rate = Tones.Rate)
    {
        var random = new Random(seed);
        for (var i = at; i < samples.Length && i < at + (8 * seconds * rate); i++)
            samples[i] += (float)(amplitude * Math.Exp(-(i - at) / (seconds * rate)) * ((2 * random.NextDouble()) - 1));
    }

    public static float[] Sine(int count, double hertz, double amplitude, int rate = Tones.Rate) =>
        [.. Enumerable.Range(0, count).Select(i => (float)(amplitude * Math.Sin(2 * Math.PI * hertz * i / rate)))];

    public static IReadOnlyList<Finding> Find(float[] mid, float[] side, int rate = Tones.Rate, int bits = 24) =>
        TakeDetectors.Find(Tones.Take(mid.Rounded(bits), side.Rounded(bits), rate, bits, faults: true));

    public static List<Finding> Find(string kind, float[] mid, float[] side, int rate = Tones.Rate) =>
        [.. Find(mid, side, rate).Where(f => f.Kind == kind)];
}
