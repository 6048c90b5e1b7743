using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>Reads the highest frequency at which a channel holds sound above its noise.</summary>
/// <remarks>
/// Two things are sound: what is louder at times than the quiet of the same twelfth octave is by chance, and what lies steadily above
/// the lowest twelfth octave beyond 1 kHz, as far up as it falls to that. Noise of microphones and converters is flat there or rises.
/// The top tenth of the band is left out: converters end in it. Common practice, no published source.
/// </remarks>
internal static class SoundBand
{
    private const double Lowest = 1000, StepOctaves = 1 / 12.0, Stands = 6, Steady = 8;

    /// <summary>The upper end of the sound in hertz; 0 when nothing stands out from 1 kHz on, or too little was heard to tell noise from sound.</summary>
    /// <param name="held">Largest power for each bin.</param>
    /// <param name="quiet">Power for each bin in the group of eight blocks where it was quietest.</param>
    /// <param name="transformed">Blocks transformed.</param>
    /// <param name="groups">Groups of blocks.</param>
    /// <param name="edge">Where the spectrum ends at once; 0 when it does not.</param>
    /// <param name="sampleRateHertz">The sample rate.</param>
    public static Hertz Find(ReadOnlySpan<float> held, ReadOnlySpan<float> quiet, int transformed, int groups, double edge, int sampleRateHertz)
    {
        var width = sampleRateHertz / (double)PairSpectrum.Length;
        var end = Math.Min(0.45 * sampleRateHertz, edge > 0 ? edge : double.MaxValue);
        if (groups < 2)
            return default;
        // The largest of n exponentially distributed powers lies ln n + 0.58 times above their mean.
        var chance = 10 * Math.Log10(Math.Log(transformed) + 0.58);
        var (bands, sound) = (new List<(double Top, double Held, double Quiet)>(), 0.0);
        for (var low = Lowest; low * Math.Pow(2, StepOctaves) <= end; low *= Math.Pow(2, StepOctaves))
        {
            var (from, to) = ((int)(low / width), (int)Math.Ceiling(low * Math.Pow(2, StepOctaves) / width));
            bands.Add((low * Math.Pow(2, StepOctaves), Mean(held[from..to]), Mean(quiet[from..to])));
        }

        if (bands.Count == 0)
            return default;
        foreach (var (top, loud, floor) in bands)
            sound = loud - floor > chance + Stands ? top : sound;
        var least = bands.Min(b => b.Quiet);
        var steady = bands.TakeWhile(b => b.Quiet > least + Steady).LastOrDefault().Top;
        return new(Math.Max(sound, steady));
    }

    private static double Mean(ReadOnlySpan<float> power)
    {
        var sum = 0.0;
        foreach (var p in power)
            sum += p;
        return 10 * Math.Log10((sum / power.Length) + 1e-30);
    }
}
