using Athwart.Metering.Events;

namespace Athwart.Metering.Tests.Events;

/// <summary>Families of generated sounds: the same thing struck several times, and other things.</summary>
public sealed class SoundPrintTests
{
    private const int Rate = 48000;

    [Fact]
    public void ASound_IsItselfAtAnyLevel()
    {
        var (loud, soft) = (Strike(1, 900, 0.05, 0.5), Strike(1, 900, 0.05, 0.01));
        Assert.Equal(0, Print(loud).DistanceTo(Print(loud)));
        Assert.InRange(Print(loud).DistanceTo(Print(soft)), 0, 0.1);
        Assert.Equal(Print(loud).DistanceTo(Print(soft)), Print(soft).DistanceTo(Print(loud)));
    }

    [Fact]
    public void FourFamilies_AreToldApart_WhateverTheirOrder()
    {
        // Wood, iron, gravel and a long hiss; five variations of each, mixed.
        var prints = Enumerable.Range(0, 20).Select(i => Print((i % 4) switch
        {
            0 => Strike(i, 240, 0.04, 0.3),
            1 => Strike(i, 3100, 0.25, 0.2),
            2 => Gravel(i),
            _ => Hiss(i),
        })).ToList();
        var families = SoundFamilies.Group(prints);
        Assert.Equal(4, families.Count);
        Assert.All(families, f => Assert.Equal(5, f.Count));
        Assert.All(families, f => Assert.Single(f.Select(i => i % 4).Distinct()));
    }

    [Fact]
    public void NothingAndSilence_HaveAPrint()
    {
        Assert.Equal(0, Print([]).DistanceTo(Print(new float[Rate])));
        Assert.InRange(Print(Hiss(1)).DistanceTo(Print([])), 10, 50);
    }

    private static SoundPrint Print(float[] samples)
    {
        var meter = new SoundPrintMeter(Rate);
        meter.Add(samples, new float[samples.Length]);
        return meter.Complete();
    }

    // Modes a little off and unequal each time, as when one thing is struck by hand, with a click of noise.
    private static float[] Strike(int seed, double hertz, double decay, double level)
    {
        var random = new Random(seed);
        var modes = new[] { 1, 1.9, 3.2 }.Select(m => (Hertz: hertz * m * (1 + (0.02 * (random.NextDouble() - 0.5))), Level: (0.7 + (0.6 * random.NextDouble())) / m)).ToArray();
        return [.. Enumerable.Range(0, (int)(Rate * 8 * decay)).Select(n =>
        {
            var t = (double)n / Rate;
            var sum = modes.Sum(m => m.Level * Math.Exp(-t / decay * m.Hertz / hertz) * Math.Sin(2 * Math.PI * m.Hertz * t));
            return (float)(level * (sum + (0.3 * Math.Exp(-t / 0.004) * ((2 * random.NextDouble()) - 1))));
        })];
    }

    private static float[] Gravel(int seed)
    {
        var random = new Random(seed);
        var (before, samples) = (0.0, new float[Rate / 3]);
        for (var n = 0; n < samples.Length; n++)
        {
            var noise = (2 * random.NextDouble()) - 1;
            samples[n] = (float)(0.2 * (noise - before) * Math.Exp(-(double)n / Rate / 0.06));
            before = noise;
        }

        return samples;
    }

    private static float[] Hiss(int seed)
    {
        var random = new Random(seed);
        var (low, samples) = (0.0, new float[Rate * 3 / 2]);
        for (var n = 0; n < samples.Length; n++)
            samples[n] = (float)(low += 0.1 * (((2 * random.NextDouble()) - 1) - low));
        return samples;
    }
}
