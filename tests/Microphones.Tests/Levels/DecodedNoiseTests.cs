using Athwart.Microphones.Levels;
using CsCheck;

namespace Athwart.Microphones.Tests.Levels;

public static class DecodedNoiseTests
{
    // Definition: equal noises, equal level: twice the power.
    [Fact]
    public static void TwoAlikeMicrophones_AtEqualGain_CostTheSide3Decibels()
    {
        var noise = DecodedNoise.For(Demo.Mid, Demo.Mid, null, 0, 45);
        Assert.Equal(10 * Math.Log10(2), noise.SideCostDecibels!.Value, 9);
        Assert.Equal(14 + (10 * Math.Log10(2)), noise.LeftRightDecibelsA!.Value, 9);
        Assert.Equal(14, noise.MonoDecibelsA!.Value, 9);
        Assert.Equal(31, noise.MonoSignalToNoiseDecibels!.Value, 9);
    }

    // Derived by hand. Inputs of -124 dBu as sound: -124 - 2.2185 + 33.979 + 93.979 = 1.740 dBA at 20 mV/Pa, 5.823 dBA at 12.5 mV/Pa.
    // mid 10^1.4 + 10^0.1740 = 25.1189 + 1.4928 = 26.6117 (14.251); side 10^1.8 + 10^0.5823 = 63.0957 + 3.8218 = 66.9175 (18.255);
    // side at -6 dB: 66.9175·0.251189 = 16.8089; sum 43.4206 (16.377).
    [Fact]
    public static void DemoPair_IsAsWorkedByHand()
    {
        var noise = DecodedNoise.For(Demo.Mid, Demo.Side, Demo.Recorder, -6, 45);
        Assert.Equal(14.251, noise.MidDecibelsA!.Value, 0.0006);
        Assert.Equal(18.255, noise.SideDecibelsA!.Value, 0.0006);
        Assert.Equal(16.377, noise.LeftRightDecibelsA!.Value, 0.0006);
        Assert.Equal(16.377 - 14.251, noise.SideCostDecibels!.Value, 0.0011);
        Assert.Equal(45 - 16.377, noise.SignalToNoiseDecibels!.Value, 0.0006);
        Assert.True(noise.MicrophonesDominate);
        Assert.Equal([NoiseOrigin.MidMicrophone, NoiseOrigin.MidInput, NoiseOrigin.SideMicrophone, NoiseOrigin.SideInput], noise.Parts.Select(part => part.Origin));
        Assert.Equal([14, 1.740, 12, -0.177], noise.Parts.Select(part => part.DecibelsA), (expected, actual) => Math.Abs(expected - actual) < 0.0006);
        Assert.Empty(noise.Reasons);
    }

    [Fact]
    public static void NoisyInput_Dominates()
        => Assert.False(DecodedNoise.For(Demo.Mid, Demo.Side, Demo.Recorder with { EquivalentInputNoiseDecibelsU = -105 }, -6).MicrophonesDominate);

    // Left = mid + g·side and right = mid - g·side of white noises: the closed form against samples made and decoded here.
    [Fact]
    public static void DecodedSamples_AreAsNoisyAsTheClosedForm()
    {
        const double mid = 14.251, side = 18.255, level = -6;
        var random = new Uniform(7);
        var (midScale, sideScale, g) = (SoundPressure.ToPascals(mid) * Math.Sqrt(3), SoundPressure.ToPascals(side) * Math.Sqrt(3), Math.Pow(10, level / 20));
        const int count = 1_000_000;
        var (left, mono) = (0.0, 0.0);
        for (var index = 0; index < count; index++)
        {
            var (m, s) = (midScale * random.Next(), sideScale * random.Next());
            var (l, r) = (m + (g * s), m - (g * s));
            left += l * l;
            mono += (l + r) * (l + r) / 4;
        }

        // A million samples of uniform noise: standard error of the power about 0.0039 dB; four of them.
        Assert.Equal(DecodedNoise.Combine(mid, side, level), SoundPressure.FromPascals(Math.Sqrt(left / count)), 0.016);
        Assert.Equal(mid, SoundPressure.FromPascals(Math.Sqrt(mono / count)), 0.016);
    }

    [Fact]
    public static void NoSide_LeavesTheMid_EvenWhenTheSideIsUnknown()
    {
        var noise = DecodedNoise.For(Demo.Mid, Demo.Side with { EquivalentNoiseDecibelsA = null }, Demo.Recorder, double.NegativeInfinity);
        Assert.Equal(noise.MidDecibelsA, noise.LeftRightDecibelsA);
        Assert.Equal(0, noise.SideCostDecibels);
    }

    [Fact]
    public static void UnknownNoise_IsAReason_AndWhatIsKnownStays()
    {
        var noise = DecodedNoise.For(Demo.Mid, Demo.Side with { EquivalentNoiseDecibelsA = null }, Demo.Recorder, -6, 45);
        Assert.Null(noise.LeftRightDecibelsA);
        Assert.Null(noise.SignalToNoiseDecibels);
        Assert.Null(noise.MicrophonesDominate);
        Assert.NotNull(noise.MonoSignalToNoiseDecibels);
        Assert.Equal(3, noise.Parts.Count);
        Assert.Contains("noise of the side", Assert.Single(noise.Reasons), StringComparison.Ordinal);
    }

    [Fact]
    public static void MoreSide_IsNeverQuieter_AndNoDecodeIsQuieterThanTheMid()
        => Gen.Select(Gen.Double[0, 40], Gen.Double[0, 40], Gen.Double[-60, 12], Gen.Double[0, 12]).Sample((mid, side, level, more) =>
        {
            var noise = DecodedNoise.Combine(mid, side, level);
            Assert.True(noise >= mid - 1e-9);
            Assert.True(DecodedNoise.Combine(mid, side, level + more) >= noise - 1e-9);
        });

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public static void ImpossibleSideLevel_IsRefused(double level)
        => Assert.Throws<ArgumentOutOfRangeException>(() => DecodedNoise.For(Demo.Mid, Demo.Side, null, level));

    /// <summary>A small generator of our own, −1 to 1, the same on every machine (xorshift).</summary>
    private sealed class Uniform(ulong seed)
    {
        private ulong _state = seed;

        public double Next()
        {
            _state ^= _state << 13;
            _state ^= _state >> 7;
            _state ^= _state << 17;
            return ((_state >> 11) * (2.0 / (1UL << 53))) - 1;
        }
    }
}
