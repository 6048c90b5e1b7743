using Athwart.Microphones.Air;
using Athwart.Microphones.Levels;
using CsCheck;

namespace Athwart.Microphones.Tests.Air;

public static class UltrasonicReachTests
{
    private static UltrasonicReach Reach(double metres, double band = 70, double slope = 0, double noise = 14, double? microphone = 120_000, double rate = 250_000)
        => UltrasonicReach.For(new(band, 1000, slope), metres, AirConditions.Mild, noise, microphone, rate);

    // The bands of IEC 61260-1 tile the spectrum: A-weighted and summed they give back the noise they were cut from.
    [Fact]
    public static void ThirdOctavesOfWhiteNoise_SumToItsDecibelsA()
    {
        var sum = Enumerable.Range(-17, 31).Select(n => 1000 * Math.Pow(10, n / 10.0))
            .Sum(hertz => Math.Pow(10, (BandNoise.ThirdOctaveDecibels(20, hertz) + WeightingA.Decibels(hertz)) / 10));
        // The top band reaches to 22.4 kHz, 0.05 dB of the sum; the weighting is not quite straight inside a band.
        Assert.Equal(20, 10 * Math.Log10(sum), 0.1);
    }

    [Fact]
    public static void AtItsReach_TheSourceIsJustAtTheNoise()
    {
        var reach = Reach(20);
        Assert.Equal(ReachLimit.Noise, reach.LimitedBy);
        var hertz = reach.HighestHertz!.Value;
        Assert.InRange(hertz, 20_000, 60_000);
        Assert.Equal(BandNoise.ThirdOctaveDecibels(14, hertz), SoundPath.LevelDecibels(70, 1, 20, AirConditions.Mild, hertz), 1e-6);
        Assert.Equal(AirAbsorption.DecibelsPerMetre(AirConditions.Mild, hertz) * 19, reach.AirDecibels!.Value, 9);
    }

    // The plain search: each 10 Hz from the top.
    [Theory]
    [InlineData(5, 60, -3)]
    [InlineData(12, 80, -6)]
    [InlineData(40, 75, 0)]
    [InlineData(100, 90, -4)]
    public static void Reach_IsWhatAPlainSearchFinds(double metres, double band, double slope)
    {
        var plain = 100_000.0;
        while (band + (slope * Math.Log2(plain / 1000)) - (20 * Math.Log10(metres)) - (AirAbsorption.DecibelsPerMetre(AirConditions.Mild, plain) * (metres - 1)) < BandNoise.ThirdOctaveDecibels(14, plain))
            plain -= 10;
        Assert.Equal(plain, Reach(metres, band, slope).AboveNoiseHertz!.Value, 10.0);
    }

    [Fact]
    public static void Microphone_ThenRate_EndIt()
    {
        Assert.Equal((20_000, ReachLimit.Microphone), (Reach(5, microphone: 20_000).HighestHertz, Reach(5, microphone: 20_000).LimitedBy));
        Assert.Equal((24_000, ReachLimit.Rate), (Reach(5, rate: 48_000).HighestHertz, Reach(5, rate: 48_000).LimitedBy));
        Assert.Equal((100_000, ReachLimit.Formula), (Reach(1, band: 120).HighestHertz, Reach(1, band: 120).LimitedBy));
    }

    [Fact]
    public static void UnknownNoise_OrASourceBelowIt_HasNoReach()
    {
        var unknown = UltrasonicReach.For(new(70), 5, AirConditions.Mild, null, 20_000, 96_000);
        Assert.Null(unknown.HighestHertz);
        Assert.Contains("noise of the rig is not known", Assert.Single(unknown.Reasons), StringComparison.Ordinal);
        var buried = Reach(100, band: -40);
        Assert.Null(buried.HighestHertz);
        Assert.Contains("go nearer", Assert.Single(buried.Reasons), StringComparison.Ordinal);
    }

    [Fact]
    public static void MarginAboveTheNoise_CountsAsThatMuchMoreNoise()
    {
        var margin = UltrasonicReach.For(new(70), 20, AirConditions.Mild, 14, 120_000, 250_000, 6);
        Assert.Equal(Reach(20, noise: 20).HighestHertz!.Value, margin.HighestHertz!.Value, 1e-3);
    }

    [Fact]
    public static void UnknownHighEnd_LeavesAnUpperBound()
        => Assert.Contains("upper bound", Assert.Single(Reach(5, microphone: null).Reasons), StringComparison.Ordinal);

    [Fact]
    public static void FurtherAway_OrNoisier_NeverReachesHigher()
        => Gen.Select(Gen.Double[1, 50], Gen.Double[1, 4], Gen.Double[0, 30], Gen.Double[0, 20]).Sample((metres, ratio, noise, more) =>
        {
            var reach = Reach(metres, noise: noise).HighestHertz ?? 0;
            Assert.True((Reach(metres * ratio, noise: noise).HighestHertz ?? 0) <= reach);
            Assert.True((Reach(metres, noise: noise + more).HighestHertz ?? 0) <= reach);
        });
}
