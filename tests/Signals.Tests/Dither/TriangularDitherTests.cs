using Athwart.Signals.Dither;
using CsCheck;

namespace Athwart.Signals.Tests.Dither;

public sealed class TriangularDitherTests
{
    private const int Frames = 1 << 20;

    [Fact]
    public void Fill_AMillionFrames_HasTheMomentsOfTheTriangle()
    {
        var d = Steps(1, 0, 0, Frames);
        Assert.InRange(d.Max(), 0.99, 1);
        Assert.InRange(d.Min(), -1, -0.99);
        // Five standard errors each: mean 0, variance 1/6, third moment 0, fourth 1/15.
        Assert.Equal(0, d.Average(), 5 * Math.Sqrt(1.0 / 6 / Frames));
        Assert.Equal(1.0 / 6, d.Average(v => v * v), 5 * Math.Sqrt(((1.0 / 15) - (1.0 / 36)) / Frames));
        Assert.Equal(0, d.Average(v => v * v * v), 5 * Math.Sqrt(1.0 / 28 / Frames));
        Assert.Equal(1.0 / 15, d.Average(v => v * v * v * v), 5 * Math.Sqrt(((1.0 / 45) - (1.0 / 225)) / Frames));
    }

    [Fact]
    public void Fill_AMillionFrames_FillsTheTriangleEvenly()
    {
        var d = Steps(5, 1, 12345, Frames);
        var counts = new int[64];
        foreach (var v in d)
            counts[(int)((v + 1) * 32)]++;
        double chiSquare = 0;
        for (var bin = 0; bin < 64; bin++)
        {
            double Below(double x) => x < 0 ? (x + 1) * (x + 1) / 2 : 1 - ((1 - x) * (1 - x) / 2);
            var expected = Frames * (Below((bin - 31) / 32.0) - Below((bin - 32) / 32.0));
            chiSquare += (counts[bin] - expected) * (counts[bin] - expected) / expected;
        }

        Assert.InRange(chiSquare, 63 - (5 * Math.Sqrt(126)), 63 + (5 * Math.Sqrt(126)));
    }

    [Theory]
    [InlineData(1), InlineData(2), InlineData(3), InlineData(8), InlineData(256), InlineData(44100)]
    public void Fill_NeighboursAtALag_AreUncorrelated(int lag)
    {
        var d = Steps(3, 0, 0, Frames + lag);
        Assert.Equal(0, Correlation(d.AsSpan(0, Frames), d.AsSpan(lag)), 5 / Math.Sqrt(Frames));
    }

    [Fact]
    public void Fill_ChannelsAndSeeds_AreUncorrelatedAtEveryLagNearby()
    {
        var d = Steps(3, 0, 0, Frames);
        foreach (var other in new[] { Steps(3, 1, 0, Frames + 16), Steps(4, 0, 0, Frames + 16), Steps(3, 0, 1L << 32, Frames + 16) })
        {
            for (var lag = 0; lag < 16; lag++)
                Assert.Equal(0, Correlation(d, other.AsSpan(lag, Frames)), 5 / Math.Sqrt(Frames));
        }
    }

    [Fact]
    public void Fill_CutAnywhere_GivesTheBitsOfTheWhole() => Gen.Select(Gen.ULong, Gen.Int[0, 3], Gen.Long[0, 1L << 40], Gen.Int[0, 600]).Sample((seed, channel, first, cut) =>
    {
        var whole = Steps(seed, channel, first, 600);
        Assert.Equal(whole[..cut], Steps(seed, channel, first, cut));
        Assert.Equal(whole[cut..], Steps(seed, channel, first + cut, 600 - cut));
    });

    [Fact]
    public void Fill_AcrossTheLowerThirtyTwoBits_GivesTheBitsOfEitherSide()
    {
        var first = (1L << 32) - 5;
        var whole = Steps(8, 0, first, 20);
        for (var n = 0; n < 20; n++)
            Assert.Equal(new TriangularDither(8, 0).UnitsAt(first + n) / 65536.0, whole[n]);
    }

    [Fact]
    public void Opposite_EveryFrame_IsTheNegative()
    {
        var dither = new TriangularDither(21, 0);
        Assert.All(Enumerable.Range(0, 100), n => Assert.Equal(-dither.UnitsAt(n), dither.Opposite.UnitsAt(n)));
        Assert.Equal(dither, dither.Opposite.Opposite);
        Assert.NotEqual(dither, dither.Opposite);
    }

    // Pinned: recipes rely on these values for ever.
    [Fact]
    public void UnitsAt_SeedOneChannelZero_KeepsItsFirstValues() =>
        Assert.Equal(Pinned, Enumerable.Range(0, 4).Select(n => new TriangularDither(1, 0).UnitsAt(n)));

    private static readonly int[] Pinned = [-9933, 28704, 22894, 8806];

    // REFERENCES H: triangular dither of 2 steps peak to peak at 16 bits: total error half a step rms, −93.32 dBFS (sine reference), −96.33 dB re ±1 rms.
    [Theory]
    [InlineData(16, -96.33, -93.32), InlineData(8, -48.16, -45.15), InlineData(20, -120.41, -117.40), InlineData(24, -144.49, -141.48)]
    public void Quantize_ToneWithDither_HasThePublishedNoise(int bits, double rmsDecibels, double sineDecibels)
    {
        var samples = new double[Frames];
        for (var n = 0; n < Frames; n++)
            samples[n] = 0.25 * Math.Sin(2 * Math.PI * 997 * n / 48000);
        var steps = new int[Frames];
        Quantizer.Quantize(samples, bits, new TriangularDither(6, 0), 0, steps);
        var error = samples.Select((v, n) => (steps[n] / Math.Pow(2, bits - 1)) - v).ToArray();
        var decibels = 10 * Math.Log10(error.Average(e => e * e));
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{bits} bits: {decibels + 3.0103:0.000} dBFS"));
        Assert.Equal(rmsDecibels, decibels, 0.02);
        Assert.Equal(sineDecibels, decibels + 3.0103, 0.02);
        // The error knows nothing of the signal.
        Assert.Equal(0, Correlation(error, samples), 5 / Math.Sqrt(Frames));
    }

    private static double[] Steps(ulong seed, int channel, long first, int count)
    {
        var steps = new double[count];
        new TriangularDither(seed, channel).Fill(first, steps);
        return steps;
    }

    private static double Correlation(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        double ab = 0, aa = 0, bb = 0;
        for (var n = 0; n < a.Length; n++)
        {
            ab += a[n] * b[n];
            aa += a[n] * a[n];
            bb += b[n] * b[n];
        }

        return ab / Math.Sqrt(aa * bb);
    }
}
