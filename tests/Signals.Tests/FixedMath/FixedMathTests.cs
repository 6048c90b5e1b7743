using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Tests.FixedMath;

public sealed class FixedMathTests
{
    [Fact]
    public void SinPi_OverFourTurns_AgreesWithThePlatformTo4e16()
    {
        for (var n = -40_000; n <= 40_000; n++)
        {
            var x = n / 10_000.0;
            Assert.Equal(double.SinPi(x), FixedTrigonometry.SinPi(x), 4e-16);
        }
    }

    [Theory]
    [InlineData(0, 0), InlineData(1, 0), InlineData(-7, 0), InlineData(1e9, 0), InlineData(0.5, 1), InlineData(-0.5, -1), InlineData(1.5, -1)]
    public void SinPi_WholesAndHalves_AreExact(double x, double expected) => Assert.Equal(expected, FixedTrigonometry.SinPi(x));

    [Fact]
    public void Sinc_CentreAndWholes_AreOneAndZero()
    {
        Assert.Equal(1, FixedTrigonometry.Sinc(0));
        Assert.Equal(0, FixedTrigonometry.Sinc(3));
        Assert.Equal(2 / Math.PI, FixedTrigonometry.Sinc(0.5), 1e-16);
    }

    [Fact]
    public void AmplitudeRatio_Everywhere_AgreesWithThePlatformTo4e15()
    {
        for (var dB = -200.0; dB <= 200; dB += 0.37)
            Assert.Equal(1, FixedGain.AmplitudeRatio(dB) / Math.Pow(10, dB / 20), 4e-15);
    }

    [Theory]
    [InlineData(0, 1), InlineData(20, 10), InlineData(40, 100), InlineData(-20, 0.1), InlineData(double.NegativeInfinity, 0)]
    public void AmplitudeRatio_RoundNumbers_AreExact(double decibels, double ratio) => Assert.Equal(ratio, FixedGain.AmplitudeRatio(decibels));

    // Pinned: recipes record these, and the width −3 dB is the commonest of all.
    [Fact]
    public void AmplitudeRatio_MinusThreeDecibels_IsPinned() => Assert.Equal(0.7079457843841379, FixedGain.AmplitudeRatio(-3));

    [Theory]
    [InlineData(double.NaN), InlineData(1001), InlineData(double.PositiveInfinity)]
    public void AmplitudeRatio_OutOfRange_IsRejected(double decibels) => Assert.Throws<ArgumentOutOfRangeException>(() => FixedGain.AmplitudeRatio(decibels));

    // Tabled values of I0, from memory.
    [Theory]
    [InlineData(0, 1), InlineData(1, 1.2660658777520084), InlineData(5, 27.239871823604442), InlineData(10, 2815.716628466254)]
    public void BesselI0_TabledPlaces_HaveTheTabledValues(double x, double expected) => Assert.Equal(1, KaiserWindow.BesselI0(x) / expected, 1e-14);

    [Fact]
    public void KaiserWindow_CentreAndOutside_AreOneAndZero()
    {
        Assert.Equal(1, KaiserWindow.At(0, 9));
        Assert.Equal(0, KaiserWindow.At(1.0001, 9));
        Assert.Equal(KaiserWindow.At(0.3, 9), KaiserWindow.At(-0.3, 9));
    }
}
