using CsCheck;
using static Athwart.Metering.Tests.Support.Tones;

namespace Athwart.Metering.Tests;

public class TakeMeterTests
{
    [Fact]
    public void LoudnessOfTheDecode_IsThatOfALoudnessMeterOnLeftAndRight_AtAnySideGain()
    {
        var (mid, side) = (Noise(480_000, 0.3, 1), Noise(480_000, 0.2, 2));
        for (var i = 0; i < mid.Length; i++)
            (mid[i], side[i]) = (mid[i] * (1 + (i / 100_000)) / 5, side[i] * (1 + (i / 70_000 % 3)) / 4);
        var take = Take(mid, side);
        foreach (var gain in (double[])[0, 0.5, 1, 1.7])
        {
            var expected = Meter(mid.Plus(side.Times(gain)), mid.Plus(side.Times(-gain))).Measure();
            var actual = take.LoudnessAt(gain);
            Assert.Equal(expected.Integrated.Value, actual.Integrated.Value, 1e-5);
            Assert.Equal(expected.MaxMomentary.Value, actual.MaxMomentary.Value, 1e-5);
            Assert.Equal(expected.MaxShortTerm.Value, actual.MaxShortTerm.Value, 1e-5);
            Assert.Equal(expected.Range.Value, actual.Range.Value, 1e-5);
        }
    }

    [Theory]
    [InlineData(0, 0.0)]
    [InlineData(-3, 0.332)]
    [InlineData(-6, 0.599)]
    [InlineData(-9, 0.776)]
    [InlineData(-12, 0.881)]
    [InlineData(3, -0.332)]
    public void Correlation_OfUnrelatedMidAndSide_IsPowerDifferenceOverPowerSum(double sideDecibels, double expected)
    {
        // r = (PM − PS)/(PM + PS) when left and right have equal power: elementary, docs/sources.md#correlation.
        var (mid, side) = (Steps(Rate, 1000, (2, -20)), Steps(Rate, 1500, (2, -20 + sideDecibels)));
        Assert.Equal(expected, Take(mid, side).LeftRightCorrelation, 0.0006);
        Assert.Equal(expected, Take(mid, side.Times(0.5)).CorrelationAt(2).Whole, 0.0006);
    }

    [Fact]
    public void Correlation_EqualsItsDefinitionOnLeftAndRight_AndTheWorstStretchIsFound()
    {
        var (mid, side) = (Noise(480_000, 0.2, 3), Noise(480_000, 0.1, 4));
        for (var i = 240_000; i < 264_000; i++)
            mid[i] *= 0.05f;
        var measures = Take(mid, side);
        var (left, right) = (mid.Plus(side), mid.Plus(side.Times(-1)));
        Assert.Equal(Correlate(left, right), measures.Correlation.Whole, 1e-6);
        Assert.Equal(Correlate(left[240_000..259_200], right[240_000..259_200]), measures.Correlation.Worst, 0.01);
        Assert.InRange(measures.Correlation.WorstRange!.Value.From.Value, 240_000, 244_800);
        Assert.Equal(Correlate(mid, side), measures.MidSideCorrelation, 1e-9);
    }

    [Fact]
    public void Mono_HasCorrelation1_AndASilentChannelHasNone()
    {
        var tone = Steps(Rate, 440, (1, -12));
        Assert.Equal(1, Take(tone, new float[tone.Length]).LeftRightCorrelation, 1e-12);
        Assert.Equal(1, Take(tone, tone, sideGain: 0).LeftRightCorrelation, 1e-12);
        Assert.Equal(double.NaN, Take(tone, tone).LeftRightCorrelation);
        Assert.Equal(double.NaN, Take(tone, new float[tone.Length]).MidSideCorrelation);
    }

    [Fact]
    public void Silence_ReadsMinusInfinity_AndAnEmptyTakeToo()
    {
        foreach (var count in (int[])[0, 1, 100_000])
        {
            var m = Take(new float[count], new float[count]);
            Assert.All(m.Roles, r => Assert.Equal(double.NegativeInfinity, r.SamplePeak.Value));
            Assert.All(m.Roles, r => Assert.Equal(double.NegativeInfinity, r.TruePeak.Value));
            Assert.All(m.Roles, r => Assert.Equal(double.NegativeInfinity, r.Rms.Value));
            Assert.Equal(LoudnessMeasures.Silence, m.Loudness);
            Assert.Equal(double.NegativeInfinity, m.Loudness.Integrated.Value);
            Assert.Equal(0, m.Mid.HighestUsefulFrequency.Value);
            Assert.Equal(count, m.FrameCount.Value);
        }
    }

    [Fact]
    public void AFullScaleSine_ReadsRmsMinus3_01_AndAPeakOf0()
    {
        var m = Take(Steps(Rate, 1000, (1, 0)), Steps(Rate, 1000, (1, -20)));
        Assert.Equal(-3.0103, m.Mid.Rms.Value, 1e-4);
        Assert.Equal(0, m.Mid.SamplePeak.Value, 1e-6);
        Assert.Equal(-20, m.SideMinusMid.Value, 1e-4);
        Assert.Equal(20 * Math.Log10(1.1), m.Left.SamplePeak.Value, 1e-4);
        Assert.Equal(20 * Math.Log10(0.9), m.Right.SamplePeak.Value, 1e-4);
    }

    [Fact]
    public void HowTheTakeIsCutIntoBlocks_ChangesNothing()
    {
        var (mid, side) = (Noise(60_000, 0.9, 11), Noise(60_000, 0.4, 12));
        Array.Fill(mid, 0.8f, 20_000, 3_000);
        mid.AsSpan(40_000, 6_000).Clear();
        var whole = Digest(Take(mid, side));
        Gen.Int[1, 9_999].Array[1, 12].Sample(
            cuts =>
            {
                var meter = new TakeMeter(Rate, SampleScale.OfBits(24));
                for (var (at, i) = (0, 0); at < mid.Length; i++)
                {
                    var take = Math.Min(cuts[i % cuts.Length], mid.Length - at);
                    meter.Add(mid.AsSpan(at, take), side.AsSpan(at, take));
                    at += take;
                }

                Assert.Equal(whole, Digest(meter.Complete()));
            },
            iter: 25);
    }

    [Fact]
    public void FullScaleRuns_AreCountedFromRailToRail_WithTheirPlaces()
    {
        var mid = Noise(100_000, 0.5, 21);
        var full = (float)(1 - Math.ScaleB(1, -23));
        mid.AsSpan(4_094, 5).Fill(full); // across an inner block edge
        mid.AsSpan(50_000, 3).Fill(-1);
        mid.AsSpan(50_003, 3).Fill(full);
        mid.AsSpan(60_000, 2).Fill(full); // two do not count
        var runs = Take(mid, Noise(100_000, 0.5, 22)).Mid.FullScale;
        // High sound that clips swings from one rail to the other without leaving them.
        Assert.Equal((2, 11, 6), (runs.Count, runs.Frames, runs.LongestFrames));
        Assert.Equal([(4_094, 4_099), (50_000, 50_006)], runs.Stretches.Select(s => (s.Range.From.Value, s.Range.To.Value)));
    }

    [Fact]
    public void FloatingPointOvers_AreNotFullScaleRuns()
    {
        var mid = Noise(50_000, 0.5, 23);
        mid.AsSpan(1_000, 10).Fill(1.5f);
        var m = Take(mid, Noise(50_000, 0.1, 24), bits: 0);
        Assert.Equal((0, 1, 10), (m.Mid.FullScale.Count, m.Mid.FloatOvers.Count, m.Mid.FloatOvers.Frames));
        Assert.Equal(20 * Math.Log10(1.5), m.Mid.SamplePeak.Value, 1e-6);
        Assert.Equal(1_000, m.Mid.SamplePeakAt.Value);
    }

    [Fact]
    public void FlatTops_OfASineClippedBelowFullScale_AreAllFound()
    {
        // 440 Hz for 1 s at twice the ceiling: every half-wave is cut.
        var mid = Array.ConvertAll(Steps(Rate, 440, (1, 0)), x => Math.Clamp(x, -0.5f, 0.5f)).Rounded(24);
        var m = Take(mid, Noise(mid.Length, 0.1, 25));
        Assert.InRange(m.Mid.FlatTops.Count, 878, 880);
        Assert.Equal(1, m.Mid.FlatTopsAtCeiling, 1e-9);
        Assert.Equal(0, m.Side.FlatTops.Count);
    }

    [Theory]
    [InlineData(20, 16)]
    [InlineData(50, 16)]
    [InlineData(50, 24)]
    [InlineData(100, 12)]
    [InlineData(1000, 16)]
    public void FlatTops_OfASlowCoarselyQuantisedSine_AreNotTakenForClipping(double hertz, int bits)
    {
        var mid = Steps(96_000, hertz, (2, -6)).Rounded(bits);
        Assert.Equal(0, Take(mid, mid.Times(0.3).Rounded(bits), 96_000, bits).Mid.FlatTops.Count);
    }

    [Fact]
    public void DigitalSilence_IsFoundToTheFrame_InOneChannelAndInBoth()
    {
        var (mid, side) = (Noise(200_000, 0.5, 26), Noise(200_000, 0.5, 27));
        mid.AsSpan(10_001, 8_003).Clear();
        side.AsSpan(12_000, 40_000).Clear();
        side.AsSpan(190_000).Clear();
        mid.AsSpan(150_000, 2_000).Clear(); // 42 ms: too short
        var m = Take(mid, side);
        Assert.Equal([(10_001, 18_004)], Ranges(m.Mid.DigitalSilence));
        Assert.Equal([(12_000, 52_000), (190_000, 200_000)], Ranges(m.Side.DigitalSilence));
        Assert.Equal([(12_000, 18_004)], Ranges(m.DigitalSilence));
    }

    [Fact]
    public void SamplesThatAreNoNumbers_AreCountedAndSpoilNothing()
    {
        var (mid, side) = (Noise(50_000, 0.5, 28), Noise(50_000, 0.5, 29));
        (mid[7], mid[30_000], side[9_999]) = (float.NaN, float.PositiveInfinity, 3e30f);
        var m = Take(mid, side, bits: 0);
        Assert.Equal((2, 1), (m.Mid.NotFinite, m.Side.NotFinite));
        Assert.All(m.Roles, r => Assert.InRange(r.TruePeak.Value, -10, 10));
        Assert.InRange(m.Loudness.Integrated.Value, -20, 0);
    }

    [Theory]
    [InlineData(48_000, 16_000)]
    [InlineData(96_000, 20_000)]
    [InlineData(96_000, 40_000)]
    [InlineData(192_000, 22_000)]
    public void HighestUsefulFrequency_OfNoiseThroughALowPass_IsItsCorner(int rate, int corner)
    {
        var m = Take(LowPassed(Noise(rate, 0.3, 30), rate, corner).Rounded(24), Noise(rate, 0.3, 31).Rounded(24), rate);
        Assert.Equal(corner, m.Mid.HighestUsefulFrequency.Value, 0.03 * corner);
        Assert.InRange(m.Mid.BandEdgeDrop.Value, 20, 200);
        Assert.Equal(rate / 2.0, m.Side.HighestUsefulFrequency.Value, rate / 200.0);
        Assert.Equal(0, m.Side.BandEdgeDrop.Value);
    }

    [Fact]
    public void HighestUsefulFrequency_IsNotMissed_WhenOnlyOneClickOf20MillisecondsReachesThere()
    {
        for (var at = 40_000; at < 80_000; at += 7_777)
        {
            var mid = LowPassed(Noise(192_000, 0.3, 32), 96_000, 10_000);
            Noise(1_920, 0.3, 33).CopyTo(mid, at);
            Assert.InRange(Take(mid.Rounded(24), Noise(192_000, 0.1, 34), 96_000).Mid.HighestUsefulFrequency.Value, 46_000, 48_000);
        }
    }

    [Fact]
    public void NoiseFloor_IsTheLevelOfTheQuietestStretches_WithoutTheOffset()
    {
        var mid = Noise(480_000, 0.001, 35).Plus([.. Enumerable.Range(0, 480_000).Select(i => i is > 200_000 and < 240_000 ? 0.5f * MathF.Sin(i * 0.1f) : 0)]).Plus([.. Enumerable.Repeat(0.02f, 480_000)]);
        var m = Take(mid, Noise(480_000, 0.01, 36));
        // Uniform noise of peak a has a mean square of a²/3.
        Assert.Equal(10 * Math.Log10(1e-6 / 3), m.Mid.NoiseFloor.Value, 0.3);
        Assert.Equal(10 * Math.Log10(1e-4 / 3), m.Side.NoiseFloor.Value, 0.1);
        Assert.Equal(0.02, m.Mid.DcOffset, 1e-3);
    }

    [Fact]
    public void LoudnessOfATakeBelow400Milliseconds_HasAMomentaryMaximumAndNoIntegrated()
    {
        var m = Measure(Steps(Rate, 1000, (0.2, -20)));
        Assert.Equal(double.NegativeInfinity, m.Integrated.Value);
        Assert.Equal(-23, m.MaxMomentary.Value, 0.1);
    }

    [Fact]
    public void AFourHourTake_NeedsUnder100Megabytes()
    {
        // Per 10 ms two floats, per 100 ms three doubles; the rest is of fixed size. A tenth of the length is metered, at 8 kHz.
        var meter = new TakeMeter(8_000, SampleScale.OfBits(24), new() { Spectrum = false, TruePeak = false, Faults = false });
        var block = new float[80_000];
        // Everything this thread allocates, which other tests do not disturb; what is kept is less.
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < 144; i++)
            meter.Add(block, block);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 10_000_000);
    }

    [Fact]
    public void AFourHourTake_WithEveryFaultLookedFor_KeepsUnder52MegabytesThatGrowWithIt()
    {
        // What a take adds to once it runs: the second twelve minutes of sound with bursts, clicks and stutters, a twentieth of four hours.
        // Half of it are the bands that tell a gain that jumps, 36 bytes every 20 ms.
        var meter = new TakeMeter(8_000, SampleScale.OfBits(24), new());
        var (mid, side) = Broken(8_000 * 60);
        for (var minute = 0; minute < 12; minute++)
            meter.Add(mid, side);
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var minute = 0; minute < 12; minute++)
            meter.Add(mid, side);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 52_000_000 / 20);
        Assert.NotEmpty(TakeDetectors.Find(meter.Complete()));
    }

    /// <summary>Noise with bursts, a click every two seconds and a stutter every ten.</summary>
    private static (float[] Mid, float[] Side) Broken(int frames)
    {
        var chance = new Random(1);
        var (mid, side) = (new float[frames], new float[frames]);
        var (m, s) = (0.0, 0.0);
        for (var n = 0; n < frames; n++)
        {
            var level = 0.005 + (0.3 * Math.Exp(-(n % 8000) / 2000.0));
            m += 0.3 * ((level * ((2 * chance.NextDouble()) - 1)) - m);
            s += 0.3 * ((level * (chance.NextDouble() - 0.5)) - s);
            (mid[n], side[n]) = ((float)m, (float)s);
            if (n % 16_000 == 12_000)
                mid[n] += 0.2f;
        }

        for (var n = 40_000; n + 400 < frames; n += 80_000)
        {
            mid.AsSpan(n - 400, 400).CopyTo(mid.AsSpan(n));
            side.AsSpan(n - 400, 400).CopyTo(side.AsSpan(n));
        }

        return (mid, side);
    }

    [Fact]
    public void UnequalLengths_AndAddingAfterTheEnd_AreRefused()
    {
        var meter = new TakeMeter(48_000, SampleScale.FloatingPoint);
        Assert.Throws<ArgumentException>(() => meter.Add(new float[2], new float[3]));
        meter.Complete();
        Assert.Throws<InvalidOperationException>(() => meter.Add(new float[2], new float[2]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TakeMeter(48_000, SampleScale.FloatingPoint, new() { SideGain = -1 }));
    }

    internal static string Digest(TakeMeasures m) => string.Join(
        '|',
        m.Roles.Select(r => $"{r.SamplePeak.Value:R} {r.SamplePeakAt} {r.TruePeak.Value:R} {r.Rms.Value:R9} {r.DcOffset:F12} {r.NoiseFloor.Value:F8} {r.HighestUsefulFrequency.Value} "
            + $"{r.FullScale.Count} {r.FloatOvers.Count} {r.FlatTops.Count} {string.Join(',', r.FlatTops.Stretches.Select(s => s.Range))} {string.Join(',', r.DigitalSilence.Stretches.Select(s => s.Range))}")
            .Append($"{m.Loudness.Integrated.Value:F8} {m.Loudness.MaxMomentary.Value:F8} {m.Correlation.Whole:F9} {m.Correlation.Worst:F9} {m.Correlation.WorstRange}"));

    private static IEnumerable<(long, long)> Ranges(SampleRuns runs) => runs.Stretches.Select(s => (s.Range.From.Value, s.Range.To.Value));

    private static double Correlate(float[] a, float[] b)
    {
        var (ab, aa, bb) = (0.0, 0.0, 0.0);
        for (var i = 0; i < a.Length; i++)
            (ab, aa, bb) = (ab + ((double)a[i] * b[i]), aa + ((double)a[i] * a[i]), bb + ((double)b[i] * b[i]));
        return ab / Math.Sqrt(aa * bb);
    }

    private static float[] LowPassed(float[] samples, int rate, double corner)
    {
        // A brick wall by transform of the whole in double, by MathNet.Numerics.
        var bins = Array.ConvertAll(samples, x => new System.Numerics.Complex(x, 0));
        MathNet.Numerics.IntegralTransforms.Fourier.Forward(bins);
        for (var k = 0; k < bins.Length; k++)
        {
            if (Math.Min(k, bins.Length - k) * (double)rate / bins.Length > corner)
                bins[k] = 0;
        }

        MathNet.Numerics.IntegralTransforms.Fourier.Inverse(bins);
        return Array.ConvertAll(bins, z => (float)z.Real);
    }
}
