using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Tests.Levels;

/// <summary>Source unless said otherwise: IEC 60268-4, quoted; worked lines derived from its formulas. Tolerances are half the last printed digit.</summary>
public static class MicrophoneLevelsTests
{
    [Fact]
    public static void OnePascal_Is93Point979DecibelsSpl()
    {
        Assert.Equal(93.979, SoundPressure.OnePascalDecibels, 0.0005);
        Assert.Equal(1, SoundPressure.ToPascals(SoundPressure.OnePascalDecibels), 12);
    }

    // Source: the check of an open acoustics library (sine of amplitude 1 Pa reads 91 dB).
    [Fact]
    public static void SineOfAmplitudeOnePascal_Reads90Point97()
        => Assert.Equal(90.97, LoudestSound.FromPeak(SoundPressure.FromPascals(1)).SineDecibels, 0.005);

    [Theory]
    [InlineData(12.5, -38.06)] // IEC 60268-4, 11.1, its worked value
    [InlineData(5, -46.02)]
    [InlineData(10, -40.00)]
    [InlineData(20, -33.98)]
    [InlineData(25, -32.04)]
    [InlineData(32, -29.90)]
    [InlineData(50, -26.02)]
    public static void SensitivityLevel_IsTwentyLogOfVoltsPerPascal(double millivolts, double decibelsV)
        => Assert.Equal(decibelsV, MicrophoneLevels.SensitivityDecibelsV(millivolts), 0.005);

    // Source: √0.6 V from memory; 2.21 dB quoted.
    [Fact]
    public static void ZeroDecibelsU_IsTheRootOfPointSixVolts()
    {
        Assert.Equal(0.774597, Voltage.ZeroDecibelsUVolts, 0.0000005);
        Assert.Equal(2.2185, Voltage.ToDecibelsU(1), 0.00005);
        Assert.Equal(0, Voltage.ToDecibelsU(Voltage.ZeroDecibelsUVolts), 12);
        Assert.Equal(Math.Sqrt(0.6), Voltage.FromDecibelsU(0), 12);
    }

    [Theory]
    [InlineData(20, 12, 1.592, -115.96)]
    [InlineData(12.5, 10, 0.791, -122.04)]
    [InlineData(25, 13, 2.233, -113.02)]
    [InlineData(32, 16, 4.038, -107.88)]
    [InlineData(8, 20, 1.600, -115.92)]
    public static void SelfNoise_IsAVoltage_AndBack(double millivolts, double decibelsA, double microvolts, double decibelsV)
    {
        var volts = MicrophoneLevels.NoiseVolts(millivolts, decibelsA);
        Assert.Equal(microvolts, volts * 1e6, 0.0005);
        Assert.Equal(decibelsV, Voltage.ToDecibelsV(volts), 0.005);
        Assert.Equal(decibelsA, MicrophoneLevels.EquivalentNoiseDecibels(millivolts, volts), 9);
    }

    [Theory]
    [InlineData(20, 12, -113.74)]
    [InlineData(12.5, 10, -119.82)]
    public static void SelfNoise_InDecibelsU_IsTheSameSoundAgain(double millivolts, double decibelsA, double decibelsU)
    {
        Assert.Equal(decibelsU, MicrophoneLevels.OutputDecibelsU(millivolts, decibelsA), 0.005);
        Assert.Equal(decibelsA, MicrophoneLevels.SoundDecibels(millivolts, decibelsU), 0.005);
    }

    [Theory]
    [InlineData(20, 130, 63.246, 1.2649, 2.04)]
    [InlineData(12.5, 142, double.NaN, 3.1473, 9.96)]
    [InlineData(25, 134, double.NaN, 2.5059, 7.98)]
    [InlineData(32, 125, double.NaN, 1.1381, 1.12)]
    public static void LoudestSound_IsAnOutput(double millivolts, double decibels, double pascals, double volts, double decibelsV)
    {
        if (!double.IsNaN(pascals))
            Assert.Equal(pascals, SoundPressure.ToPascals(decibels), 0.0005);
        Assert.Equal(volts, MicrophoneLevels.OutputVolts(millivolts, decibels), 0.00005);
        Assert.Equal(decibelsV, MicrophoneLevels.OutputDecibelsV(millivolts, decibels), 0.005);
    }

    [Theory]
    [InlineData(20, 130, 4.26)]
    [InlineData(25, 134, 10.20)]
    public static void LoudestSound_IsAnOutputInDecibelsU(double millivolts, double decibels, double decibelsU)
        => Assert.Equal(decibelsU, MicrophoneLevels.OutputDecibelsU(millivolts, decibels), 0.005);

    [Fact]
    public static void SideOf12Point5AgainstMidOf20_Needs4Point08More()
        => Assert.Equal(4.08, MicrophoneLevels.MatchDecibels(20, 12.5), 0.005);

    [Fact]
    public static void SignalToNoise_IsWhatOnePascalLeavesAboveTheNoise()
    {
        Assert.Equal(93.98 - 14, MicrophoneLevels.SignalToNoiseDecibels(14), 0.005);
        Assert.Equal(116, MicrophoneLevels.DynamicRangeDecibels(130, 14));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-20)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public static void ImpossibleSensitivity_IsRefusedWithItsValue(double millivolts)
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(() => MicrophoneLevels.SensitivityDecibelsV(millivolts));
        Assert.Equal(millivolts, error.ActualValue);
    }

    [Fact]
    public static void TwoEqualNoises_Are3DecibelsMore()
        => Assert.Equal(10 + (10 * Math.Log10(2)), SoundPressure.PowerSum(10, 10), 12);

    [Fact]
    public static void NoNoise_AddsNothing()
    {
        Assert.Equal(10, SoundPressure.PowerSum(10, double.NegativeInfinity), 12);
        Assert.Equal(double.NegativeInfinity, SoundPressure.PowerSum());
    }
}
