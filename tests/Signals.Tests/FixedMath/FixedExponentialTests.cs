using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Tests.FixedMath;

public sealed class FixedExponentialTests
{
    [Fact]
    public void Exp_OverItsRange_AgreesWithThePlatformTo5e16OfItsValue()
    {
        for (var n = -70_000; n <= 70_000; n++)
            Assert.Equal(1, FixedExponential.Exp(n / 100.0) / Math.Exp(n / 100.0), 5e-16);
    }

    [Fact]
    public void Log_OverItsRange_AgreesWithThePlatformTo5e16()
    {
        for (var n = -30_000; n <= 30_000; n++)
        {
            var x = Math.Exp(n / 100.0);
            var expected = Math.Log(x);
            Assert.Equal(expected, FixedExponential.Log(x), 5e-16 * Math.Max(1, Math.Abs(expected)));
        }
    }

    [Fact]
    public void Log_NearOne_KeepsItsRelativeAccuracy()
    {
        for (var n = -1000; n <= 1000; n++)
        {
            var x = 1 + (n * 1e-9);
            Assert.Equal(Math.Log(x), FixedExponential.Log(x), Math.Abs(Math.Log(x)) * 5e-16);
        }
    }

    [Theory]
    [InlineData(double.NaN, double.NaN, double.NaN), InlineData(double.PositiveInfinity, double.PositiveInfinity, double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity, 0, double.NaN), InlineData(0, 1, double.NegativeInfinity), InlineData(-1000, 0, double.NaN)]
    public void ExpAndLog_AtTheEnds_AreDefined(double x, double exp, double log)
    {
        Assert.Equal(exp, FixedExponential.Exp(x));
        Assert.Equal(log, FixedExponential.Log(x));
    }

    [Fact]
    public void DecibelsAndRatio_UndoEachOther()
    {
        for (var dB = -200.0; dB <= 200; dB += 0.37)
            Assert.Equal(dB, FixedExponential.Decibels(FixedExponential.AmplitudeRatio(dB)), 1e-12);
    }

    [Fact]
    public void CosPi_OverFourTurns_AgreesWithThePlatformTo4e16()
    {
        for (var n = -40_000; n <= 40_000; n++)
            Assert.Equal(double.CosPi(n / 10_000.0), FixedTrigonometry.CosPi(n / 10_000.0), 4e-16);
    }

    [Theory]
    [InlineData(0, 1), InlineData(1, -1), InlineData(-7, -1), InlineData(0.5, 0), InlineData(-1.5, 0), InlineData(2, 1)]
    public void CosPi_WholesAndHalves_AreExact(double x, double expected) => Assert.Equal(expected, FixedTrigonometry.CosPi(x));

    [Fact]
    public void TanPi_BelowOneHalf_AgreesWithThePlatformTo2e15OfItsValue()
    {
        for (var n = 1; n < 4990; n++)
            Assert.Equal(1, FixedTrigonometry.TanPi(n / 10_000.0) / double.TanPi(n / 10_000.0), 2e-15);
    }

    [Fact]
    public void SinAndCos_WithinTenRadians_AgreeWithThePlatformTo4e15()
    {
        for (var n = -10_000; n <= 10_000; n++)
        {
            Assert.Equal(Math.Sin(n / 1000.0), FixedTrigonometry.Sin(n / 1000.0), 4e-15);
            Assert.Equal(Math.Cos(n / 1000.0), FixedTrigonometry.Cos(n / 1000.0), 4e-15);
        }
    }

    [Fact]
    public void Atan_OverTheLine_AgreesWithThePlatformTo5e16()
    {
        for (var n = -5000; n <= 5000; n++)
        {
            Assert.Equal(Math.Atan(n / 1000.0), FixedTrigonometry.Atan(n / 1000.0), 5e-16);
            Assert.Equal(Math.Atan(n * 1e3), FixedTrigonometry.Atan(n * 1e3), 5e-16);
        }
    }
}
