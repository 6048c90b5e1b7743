using Athwart.Signals.Shaping;
using CsCheck;

namespace Athwart.Signals.Tests.Shaping.Dynamics;

public sealed class BalanceTests
{
    [Fact]
    public void WhatCameFromSoManyDegreesToTheRight_LandsInTheMiddle()
        => Gen.Select(Gen.Double[-45, 45], Gen.Double[0, 1], Gen.Enum<BalanceMethod>()).Sample((degrees, share, method) =>
        {
            var theta = -degrees * Math.PI / 180;
            double[] mid = [share + ((1 - share) * Math.Cos(theta)), 1], side = [Math.Sin(theta), 0];
            new BalanceStage(new(degrees, method, share)).Process(mid, side);
            Assert.Equal(0, side[0], 1e-12);
            // What came from ahead lies to the side the image is turned to.
            Assert.True(side[1] * degrees > 0 || Math.Abs(degrees) < 1e-9);
        });

    [Fact]
    public void Rotating_KeepsTheEnergyAndForAFigureEightTurnsEverySourceByTheAngle()
        => Gen.Select(Gen.Double[-45, 45], Gen.Double[-180, 180]).Sample((degrees, source) =>
        {
            var (s, c) = Math.SinCos(source * Math.PI / 180);
            double[] mid = [c], side = [s];
            new BalanceStage(new(degrees, BalanceMethod.Rotate, 0)).Process(mid, side);
            Assert.Equal(1, (mid[0] * mid[0]) + (side[0] * side[0]), 1e-12);
            Assert.Equal(Math.Cos((source + degrees) * Math.PI / 180), mid[0], 1e-12);
            Assert.Equal(Math.Sin((source + degrees) * Math.PI / 180), side[0], 1e-12);
        });

    // Cardioid, 20° to the left: t = 2·tan 10°.
    [Fact]
    public void ACardioidSteered20Degrees_HasThisShareOfMidInItsSide()
    {
        double[] mid = [1], side = [0];
        new BalanceStage(new(20)).Process(mid, side);

        Assert.Equal(1, mid[0]);
        Assert.Equal(2 * Math.Tan(Math.PI / 18), side[0], 1e-15);
    }

    [Fact]
    public void AtNoDegrees_EveryBitStays()
    {
        double[] mid = StageRun.Noise(1, 100), side = StageRun.Noise(2, 100);
        var (m, s) = StageRun.Whole(new BalanceStage(new(0, BalanceMethod.Rotate)), mid, side);
        Assert.Equal(mid, m);
        Assert.Equal(side, s);
    }

    [Fact]
    public void TheStages_KeepTheirBits()
    {
        StageRun.KeepsItsBits(() => new BalanceStage(new(12)), 2000, 5);
        StageRun.KeepsItsBits(() => new BalanceStage(new(-30, BalanceMethod.Rotate)), 2000, 5);
        StageRun.KeepsItsBits(() => new SideAloneStage(new(-6)), 2000, 5);
    }

    [Fact]
    public void Steering_LeavesTheMonoAlone() => StageRun.LeavesTheMonoAlone(() => new BalanceStage(new(45, BalanceMethod.Steer, 0)));

    [Fact]
    public void TheSideAlone_TakesThePlaceOfTheMid()
    {
        double[] mid = StageRun.Noise(1, 100), side = StageRun.Noise(2, 100);
        var (m, s) = StageRun.Whole(new SideAloneStage(new()), mid, side);
        Assert.Equal(side, m);
        Assert.All(s, v => Assert.Equal(0, v));
        (m, s) = StageRun.Whole(new SideAloneStage(new(0)), mid, side);
        Assert.Equal(side, m);
        Assert.Equal(mid, s);
    }

    [Fact]
    public void SettingsOutOfRange_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new Balance(46));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Balance(0, (BalanceMethod)7));
        Assert.Throws<ArgumentOutOfRangeException>(() => new Balance(0, BalanceMethod.Steer, 1.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SideAlone(double.NaN));
    }
}
