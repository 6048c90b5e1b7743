using Athwart.Signals.Shaping;
using CsCheck;

namespace Athwart.Signals.Tests.Shaping.Dynamics;

/// <summary>Drives stages as a renderer does, and holds them to what every stage promises.</summary>
internal static class StageRun
{
    /// <summary>What comes out for the frames of the take, latency taken out; blocks of one length.</summary>
    public static (double[] Mid, double[] Side) Whole(IPairStage stage, double[] mid, double[] side, long firstFrame = 0, int block = 4096)
        => InBlocks(stage, mid, side, firstFrame, _ => block);

    public static (double[] Mid, double[] Side) InBlocks(IPairStage stage, double[] mid, double[] side, long firstFrame, Func<int, int> blockOf)
    {
        var latency = stage.LatencyFrames;
        double[] m = [.. mid, .. new double[latency]], s = [.. side, .. new double[latency]];
        stage.Begin(firstFrame);
        for (int n = 0, turn = 0; n < m.Length; turn++)
        {
            var count = Math.Min(m.Length - n, blockOf(turn));
            stage.Process(m.AsSpan(n, count), s.AsSpan(n, count));
            n += count;
        }

        return (m[latency..], s[latency..]);
    }

    /// <summary>The same bits however the frames are cut, and from wherever the stage begins once it has settled.</summary>
    public static void KeepsItsBits(Func<IPairStage> make, int frames = 6000, int iterations = 20, double settled = 0)
    {
        var (mid, side) = (Noise(1, frames), Noise(2, frames));
        var (wholeMid, wholeSide) = Whole(make(), mid, side, 1000);
        Gen.Select(Gen.Int[0, int.MaxValue], Gen.Double[0, 1]).Sample((seed, from) =>
        {
            var random = new Random(seed);
            var (m, s) = InBlocks(make(), mid, side, 1000, _ => random.Next(0, 3) == 0 ? random.Next(1, 8) : random.Next(1, 2000));
            Assert.Equal(wholeMid, m);
            Assert.Equal(wholeSide, s);
            var stage = make();
            var first = (int)(from * (frames - 1));
            var begin = (int)Math.Max(0, first - stage.SettlingFrames);
            (m, s) = Whole(stage, mid[begin..], side[begin..], 1000 + begin, 777);
            for (var n = first; n < frames; n++)
            {
                Close(wholeMid[n], m[n - begin], settled);
                Close(wholeSide[n], s[n - begin], settled);
            }
        }, iter: iterations);
    }

    /// <summary>A stage that works on the side alone gives the mid back to the bit, and the float decode folds to it to the bit as well.</summary>
    public static void LeavesTheMonoAlone(Func<IPairStage> make, int frames = 5000)
    {
        Gen.Select(Gen.Int, Gen.Double[0.1, 2]).Sample((seed, gain) =>
        {
            var (mid, side) = (Noise(seed, frames), Noise(seed + 1, frames));
            var (m, s) = Whole(make(), mid, side);
            Assert.Equal(mid, m);
            for (var n = 0; n < frames; n++)
            {
                // The decode rounds g·side once; in float left + right is then 2·mid wherever the sums are exact, so the word is made of halves.
                float centre = (float)m[n], product = Grid((float)(gain * s[n]));
                float onGrid = Grid(centre);
                Assert.Equal(onGrid, ((onGrid + product) + (onGrid - product)) / 2);
            }
        }, iter: 6);
    }

    /// <summary>Zeros, and the smallest and largest samples, come out finite.</summary>
    public static void StaysFinite(Func<IPairStage> make, int frames = 5000)
    {
        foreach (var size in new[] { 0.0, 5e-324, 1e-300, 1e-30, 1, 1e10, 3.4e38 })
        {
            var mid = Noise(3, frames).Select(v => v * size).ToArray();
            var side = Noise(4, frames).Select(v => v * size).ToArray();
            foreach (var (a, b) in new[] { (mid, side), (mid, new double[frames]), (new double[frames], side) })
            {
                var (m, s) = Whole(make(), a, b);
                Assert.All(m, v => Assert.True(double.IsFinite(v)));
                Assert.All(s, v => Assert.True(double.IsFinite(v)));
            }
        }
    }

    public static double[] Noise(int seed, int frames, double amplitude = 0.5)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, frames).Select(_ => amplitude * ((random.NextDouble() * 2) - 1))];
    }

    public static double[] Sine(double hertz, int rate, int frames, double amplitude = 0.5) =>
        [.. Enumerable.Range(0, frames).Select(n => amplitude * Math.Sin(2 * Math.PI * hertz * n / rate))];

    public static double Rms(ReadOnlySpan<double> samples)
    {
        double sum = 0;
        foreach (var sample in samples)
            sum += sample * sample;
        return Math.Sqrt(sum / samples.Length);
    }

    public static double Level(double amplitude) => 20 * Math.Log10(amplitude);

    // A float on steps of 2^-22: sums of two below 2 in magnitude are exact.
    private static float Grid(float value) => MathF.Round(value * 4194304) / 4194304;

    private static void Close(double expected, double actual, double tolerance)
    {
        if (tolerance == 0)
            Assert.Equal(expected, actual);
        else
            Assert.Equal(expected, actual, tolerance);
    }
}
