using CsCheck;
using static Athwart.Metering.Tests.Support.Tones;

namespace Athwart.Metering.Tests;

public class TruePeakTests
{
    [Fact]
    public void Bs1770_Annex2_Phase3IsPhase0Reversed_AndPhase2IsPhase1Reversed()
    {
        Assert.Equal(TruePeakFilter.Phases[0].Reverse(), TruePeakFilter.Phases[3]);
        Assert.Equal(TruePeakFilter.Phases[1].Reverse(), TruePeakFilter.Phases[2]);
    }

    [Fact]
    public void Bs1770_Annex2_EveryCoefficientIsAMultipleOf2ToMinus16() =>
        // The printed decimals are exact binary fractions; a misprint would hardly be one.
        Assert.All(TruePeakFilter.Phases.SelectMany(p => p), c => Assert.Equal(Math.Round(c * 65536 / 8) * 8, c * 65536));

    [Fact]
    public void Bs1770_Annex2_EveryPhasePassesDcWithinAQuarterOfADecibel() =>
        Assert.All(TruePeakFilter.Phases, p => Assert.InRange(20 * Math.Log10(p.Sum()), -0.25, 0.1));

    [Fact]
    public void Silence_ReadsMinusInfinity()
    {
        var meter = new TruePeakMeter(48_000);
        Assert.Equal(double.NegativeInfinity, meter.Peak.Value);
        meter.Add(new float[5000]);
        Assert.Equal(double.NegativeInfinity, meter.Peak.Value);
    }

    [Theory]
    [InlineData(44_100, 4)]
    [InlineData(79_999, 4)]
    [InlineData(88_200, 2)]
    [InlineData(96_000, 2)]
    [InlineData(176_400, 0)]
    [InlineData(192_000, 0)]
    public void TheNumberOfPhases_FollowsTheRate(int rate, int phases) => Assert.Equal(phases, TruePeakFilter.PhasesFor(rate));

    [Fact]
    public void SkippingBlocksThatCannotBeatThePeak_NeverChangesIt()
    {
        // The naive way: every output of every phase in double.
        Gen.Select(Gen.Int[1, 9000], Gen.Int[0, 1 << 30], Gen.Double[1e-4, 1]).Sample(
            (count, seed, loudness) =>
            {
                var samples = Noise(count, loudness, seed);
                var random = new Random(seed);
                for (var burst = 0; burst < 5; burst++)
                    samples[random.Next(count)] *= 3;
                var meter = new TruePeakMeter(48_000);
                meter.Add(samples);
                Assert.Equal(Naive(samples), meter.Peak.Amplitude, 1e-6 * loudness);
            },
            iter: 60);
    }

    [Fact]
    public void HowTheStreamIsCut_AndAskingEarly_DoNotMatter()
    {
        var samples = Noise(20_000, 0.7, 5);
        var whole = new TruePeakMeter(48_000);
        whole.Add(samples);
        var cut = new TruePeakMeter(48_000);
        for (var at = 0; at < samples.Length; at += 777)
        {
            cut.Add(samples.AsSpan(at, Math.Min(777, samples.Length - at)));
            _ = cut.Peak;
        }

        Assert.Equal(whole.Peak, cut.Peak);
    }

    [Fact]
    public void AfterALoudEvent_SofterSoundIsSkipped()
    {
        var random = new Random(7);
        var scanner = new TruePeakScanner(48_000);
        var (window, peaks) = (new SampleWindow(), new float[64]);
        for (var block = 0; block < 200; block++)
        {
            for (var i = 0; i < SampleWindow.Length; i++)
                window.Block[i] = (float)((block == 0 ? 0.5 : 0.1) * (random.NextDouble() - 0.5));
            scanner.Scan(window.Samples, SampleWindow.Length, peaks, BlockPeaks.Fill(window.Block, peaks));
            window.Advance();
        }

        Assert.InRange(scanner.Interpolated, 1, 65);
    }

    private static double Naive(float[] samples)
    {
        var peak = 0.0;
        for (var i = 0; i < samples.Length; i++)
        {
            peak = Math.Max(peak, Math.Abs(samples[i]));
            foreach (var phase in TruePeakFilter.Phases)
            {
                var sum = 0.0;
                for (var k = 0; k < phase.Length && k <= i; k++)
                    sum += phase[k] * samples[i - k];
                peak = Math.Max(peak, Math.Abs(sum));
            }
        }

        return peak;
    }
}
