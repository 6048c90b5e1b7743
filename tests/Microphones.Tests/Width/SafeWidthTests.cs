using Athwart.Microphones.Width;
using Athwart.Quantities;
using CsCheck;

namespace Athwart.Microphones.Tests.Width;

public static class SafeWidthTests
{
    private static readonly Hertz Whole = new(0);

    // Printed identity (derived): side against mid in dB and correlation of left and right, for equal left and right.
    [Theory]
    [InlineData(0, 0.000)]
    [InlineData(-3, 0.332)]
    [InlineData(-6, 0.599)]
    [InlineData(-9, 0.776)]
    [InlineData(-12, 0.881)]
    [InlineData(3, -0.332)]
    public static void ThePrintedPairOfRatioAndCorrelation_GivesOneLevel(double sideToMid, double correlation)
    {
        MidSidePower[] take = [new(Whole, 1, 1)];

        Assert.Equal(sideToMid, SafeWidth.BySideToMid(take, new(sideToMid)).SideLevel.Value, 1e-9);
        Assert.Equal(sideToMid, SafeWidth.ByCorrelation(take, correlation).SideLevel.Value, 0.015);
        Assert.Equal(sideToMid, SafeWidth.FromMeasuredCorrelation(0, default, correlation).SideLevel.Value, 0.015);
    }

    [Fact]
    public static void AnyPowers_KeepTheLimitAndBreakItHalfADecibelHigher()
        => Gen.Select(Gen.Double[0.01, 10], Gen.Double[0.01, 10], Gen.Double[-0.95, 0.95], Gen.Double[-0.9, 0.9]).Sample((mid, side, alike, limit) =>
        {
            var take = new MidSidePower(Whole, mid, side, alike * Math.Sqrt(mid * side));
            var answer = SafeWidth.ByCorrelation([take], limit);
            if (!answer.Reached)
                return;
            Assert.Equal(limit, Correlation(take, answer.SideLevel.AmplitudeRatio), 1e-9);
            Assert.True(Correlation(take, answer.SideLevel.AmplitudeRatio * 1.06) < limit);
        });

    [Fact]
    public static void AMeasuredCorrelation_AgreesWithThePowersItCameFrom()
        => Gen.Select(Gen.Double[0.05, 5], Gen.Double[-12, 12], Gen.Double[-0.5, 0.9]).Sample((side, at, limit) =>
        {
            var take = new MidSidePower(Whole, 1, side);
            var measured = Correlation(take, new Decibels(at).AmplitudeRatio);
            Assert.Equal(SafeWidth.ByCorrelation([take], limit).SideLevel.Value, SafeWidth.FromMeasuredCorrelation(measured, new(at), limit).SideLevel.Value, 1e-6);
        });

    [Fact]
    public static void OfSeveralBands_TheOneWithTheMostSideDecides()
    {
        var answer = SafeWidth.ByCorrelation([new(new(100), 1, 4), new(new(1000), 1, 0.5), new(new(8000), 1e-6, 1e-5)], 0);

        Assert.Equal(20 * Math.Log10(0.5), answer.SideLevel.Value, 1e-9);
        Assert.Contains("the band at 100 Hz", answer.Remark, StringComparison.Ordinal);
    }

    [Fact]
    public static void SideWithoutMid_LeavesOnlyMono()
    {
        var answer = SafeWidth.ByCorrelation([new(Whole, 0, 1)], 0.2);

        Assert.False(answer.Reached);
        Assert.Equal(Decibels.Silence, answer.SideLevel);
    }

    [Fact]
    public static void SilenceOrAsGoodAsNoSide_IsAnsweredWithinReason()
    {
        Assert.Null(SafeWidth.ByCorrelation([new(Whole, 0, 0)], 0).Got);
        Assert.Equal(SafeWidth.Highest, SafeWidth.ByCorrelation([new(Whole, 1, 1e-9)], 0).SideLevel);
        Assert.False(SafeWidth.BySideToMid([], new(0)).Reached);
    }

    [Fact]
    public static void PowersBelowZero_AreRefused()
        => Assert.Throws<ArgumentException>(() => SafeWidth.ByCorrelation([new(Whole, -1, 1)], 0));

    // The definition, from the moments of left and right.
    private static double Correlation(MidSidePower take, double gain)
    {
        double side = gain * gain * take.SidePower, cross = gain * take.CrossPower;
        double left = take.MidPower + side + (2 * cross), right = take.MidPower + side - (2 * cross);
        return (take.MidPower - side) / Math.Sqrt(left * right);
    }
}
