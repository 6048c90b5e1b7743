using Athwart.Microphones.Width;
using Athwart.Quantities;
using CsCheck;

namespace Athwart.Microphones.Tests.Width;

public static class BalanceFiguresTests
{
    // Derived: figure-8s are a rotation of the plane, so turning them by δ turns image and mono by δ exactly.
    [Fact]
    public static void AFigureEightMid_IsRotatedByTheVeryAngle()
        => Gen.Double[-45, 45].Sample(turn => Assert.Equal(-turn, BalanceFigures.OfRotation(0, new(turn), default).MonoAxis.Value, 1e-9));

    // Cardioid, 20° to the left at equal gain: t = sin 20°/(0.5 + 0.5·cos 20°) = 2·tan 10° = 0.35265.
    [Fact]
    public static void ACardioidSteeredBy20Degrees_HasItsFront6_4DecibelsToTheLeft()
    {
        var figures = BalanceFigures.OfSteering(0.5, new(20), default);

        Assert.Equal(2 * Math.Tan(Math.PI / 18), figures.Share, 1e-12);
        Assert.Equal(6.40, figures.FrontDifference.Value, 0.005);
        Assert.Equal(default, figures.MonoFront);
        Assert.Equal(default, figures.MonoAxis);
        Assert.InRange(figures.FrontImage.Value, 11, 12);
    }

    [Fact]
    public static void WhatCameFromTheAngle_LandsInTheMiddle()
        => Gen.Select(Gen.Double[0, 1], Gen.Double[-45, 45]).Sample((share, turn) =>
        {
            var t = BalanceFigures.OfSteering(share, new(turn), default).Share;
            var theta = new Degrees(-turn).Radians;
            Assert.Equal(0, Math.Sin(theta) + (t * (share + ((1 - share) * Math.Cos(theta)))), 1e-12);
        });

    [Fact]
    public static void ATurnTooFar_IsRefused() => Assert.Throws<ArgumentOutOfRangeException>(() => BalanceFigures.OfSteering(0.5, new(46), default));
}
