namespace Athwart.Metering.Tests.Support;

/// <summary>Signals synthesised from their published descriptions.</summary>
internal static class Tones
{
    public const int Rate = 48_000;

    /// <summary>Steps of a sine, phase running on, each of a peak level in dBFS; −∞ is silence.</summary>
    public static float[] Steps(int rate, double hertz, params (double Seconds, double PeakDecibels)[] steps)
    {
        var samples = new List<float>();
        foreach (var (seconds, level) in steps)
        {
            var amplitude = Math.Pow(10, level / 20);
            var count = (long)Math.Round(seconds * rate);
            for (var i = 0L; i < count; i++)
                samples.Add((float)(amplitude * Math.Sin(2 * Math.PI * hertz * samples.Count / rate)));
        }

        return [.. samples];
    }

    public static (double, double)[] Repeat(int times, params (double, double)[] steps) =>
        [.. Enumerable.Repeat(steps, times).SelectMany(s => s)];

    /// <summary>White noise, uniform, of a peak amplitude.</summary>
    public static float[] Noise(int count, double amplitude, int seed)
    {
        var random = new Random(seed);
        var samples = new float[count];
        for (var i = 0; i < count; i++)
            samples[i] = (float)(amplitude * ((2 * random.NextDouble()) - 1));
        return samples;
    }

    public static float[] Times(this float[] samples, double gain) => Array.ConvertAll(samples, x => (float)(x * gain));

    public static float[] Plus(this float[] a, float[] b) => [.. a.Zip(b, (x, y) => x + y)];

    public static float[] Rounded(this float[] samples, int bits)
    {
        var full = Math.ScaleB(1, bits - 1);
        return Array.ConvertAll(samples, x => (float)(Math.Clamp(Math.Round(x * full), -full, full - 1) / full));
    }

    public static LoudnessMeter Meter(float[] left, float[] right, int rate = Rate)
    {
        var meter = new LoudnessMeter(rate);
        meter.Add(left, right);
        return meter;
    }

    public static LoudnessMeasures Measure(float[] inPhase, int rate = Rate) => Meter(inPhase, inPhase, rate).Measure();

    public static TakeMeasures Take(float[] mid, float[] side, int rate = Rate, int bits = 24, double sideGain = 1, bool faults = false)
    {
        var meter = new TakeMeter(rate, new SampleScale(bits), new() { SideGain = sideGain, Faults = faults });
        meter.Add(mid, side);
        return meter.Complete();
    }
}
