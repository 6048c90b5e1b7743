using Athwart.Microphones.Patterns;
using Athwart.Microphones.Rigs;
using CsCheck;

namespace Athwart.Microphones.Tests.Rigs;

public static class RigSettingsTests
{
    private static readonly FirstOrderPattern Side = FirstOrderPattern.FigureEight;

    [Fact]
    public static void AnIncludedAngle_ComesBackFromItsSideLevel()
        => Gen.Select(Gen.Double[0, 0.99], Gen.Double[-25, 25]).Sample((share, level) =>
        {
            var mid = new FirstOrderPattern(share);
            var crossed = VirtualPair.Of(MidSidePair.WithFigureEight(mid, new(level)), Near.OneKilohertz);
            var setting = RigSettings.ForIncludedAngle(mid, Side, crossed.IncludedAngle, Near.OneKilohertz);
            Assert.True(setting.Reached, setting.Remark);
            Assert.Equal(level, setting.SideLevel.Value, 1e-6);
            Assert.Equal(-crossed.OnAxisGain.Value, setting.MidTrim.Value, 1e-6);
        });

    [Fact]
    public static void AVirtualPattern_ComesBackFromItsSideLevel()
        => Gen.Select(Gen.Double[0.05, 1], Gen.Double[-25, 25]).Sample((share, level) =>
        {
            var mid = new FirstOrderPattern(share);
            var crossed = VirtualPair.Of(MidSidePair.WithFigureEight(mid, new(level)), Near.OneKilohertz);
            var setting = RigSettings.ForPattern(mid, Side, crossed.Pattern, Near.OneKilohertz);
            Assert.True(setting.Reached, setting.Remark);
            Assert.Equal(level, setting.SideLevel.Value, 1e-6);
        });

    [Fact]
    public static void ACoverage_ComesBackFromItsSideLevel()
        => Gen.Select(Gen.Double[0, 1], Gen.Double[-25, 25], Gen.Double[3, 25]).Sample((share, level, threshold) =>
        {
            var mid = new FirstOrderPattern(share);
            if (Coverage.Of(MidSidePair.WithFigureEight(mid, new(level)), new(threshold), Near.OneKilohertz) is not { Value: < 359.9 } coverage)
                return;
            var setting = RigSettings.ForCoverage(mid, Side, coverage, new(threshold), Near.OneKilohertz);
            Assert.True(setting.Reached, setting.Remark);
            Assert.Equal(coverage.Value, setting.Got!.Value, 1e-6);
        }, iter: 1000);

    [Fact]
    public static void ACrossedPair_ComesBackFromItsMidAndSide()
        => Gen.Select(Gen.Double[0.01, 0.95], Gen.Double[5, 175]).Sample((share, angle) =>
        {
            var pattern = new FirstOrderPattern(share);
            var needed = RigSettings.FromCrossedPair(pattern, new(angle))!;
            var setting = RigSettings.ForCrossedPair(needed.Mid, Side, pattern, new(angle), Near.OneKilohertz);
            Assert.True(setting.Reached, setting.Remark);
            Assert.Equal(needed.SideLevel.Value, setting.SideLevel.Value, 1e-6);
            Assert.Equal(share, setting.Pair.OmniShare, 1e-9);
            Assert.Equal(needed.MidTrim.Value, setting.MidTrim.Value, 1e-9);
        });

    // Derived: sin θ/(A + B·cos θ) is largest where cos θ = −B/A.
    [Fact]
    public static void ASubcardioid_CoversAtMost230_8Degrees()
    {
        var setting = RigSettings.ForCoverage(FirstOrderPattern.Subcardioid, Side, new(300), Coverage.FullSide, Near.OneKilohertz);

        Assert.False(setting.Reached);
        Assert.Equal(2 * Math.Acos(-0.3 / 0.7) * 180 / Math.PI, setting.Got!.Value, 1e-3);
        Assert.Contains("not reachable with this mid", setting.Remark, StringComparison.Ordinal);
        Assert.Equal(setting.Got.Value, Coverage.Of(MidSidePair.WithFigureEight(FirstOrderPattern.Subcardioid, setting.SideLevel), Coverage.FullSide, Near.OneKilohertz)!.Value.Value, 1e-9);
    }

    [Fact]
    public static void HalvingIn_FindsTheSideLevelOfTheClosedForm()
        => Gen.Select(Gen.Double[0, 1], Gen.Double[10, 170]).Sample((share, coverage) =>
        {
            var closed = RigSettings.ForCoverage(new FirstOrderPattern(share), Side, new(coverage), Coverage.FullSide, Near.OneKilohertz);
            var halved = RigSettings.ForCoverage(new Unnamed(share), Side, new(coverage), Coverage.FullSide, Near.OneKilohertz);
            Assert.True(closed.Reached, closed.Remark);
            Assert.Equal(closed.SideLevel.Value, halved.SideLevel.Value, 1e-4);
        }, iter: 30);

    [Fact]
    public static void AtTheLevelJustBelowTheWidest_TheCoverageIsStillReached()
        => Gen.Double[0, 1].Sample(share =>
        {
            var widest = Coverage.WidestOfFirstOrder(share);
            var ratio = Coverage.SideToMid(Coverage.FullSide);
            Assert.Null(Coverage.SideGainOfFirstOrder(share, new(widest.Value + 0.1), ratio));
            var gain = Coverage.SideGainOfFirstOrder(share, new(widest.Value - 1), ratio)!.Value;
            Assert.Equal(widest.Value - 1, Coverage.OfFirstOrder(share, gain, ratio)!.Value.Value, 1e-4);
        });

    [Fact]
    public static void ASupercardioid_CoversNoMoreThanBetweenItsNulls()
    {
        var setting = RigSettings.ForCoverage(FirstOrderPattern.Supercardioid, Side, new(300), Coverage.FullSide, Near.OneKilohertz);

        Assert.False(setting.Reached);
        Assert.InRange(setting.Got!.Value, 250, 2 * 125.2644);
        Assert.Equal(RigSettings.Lowest, setting.SideLevel);
    }

    [Fact]
    public static void AnOmni_GivesNoIncludedAngleBut180()
    {
        var narrow = RigSettings.ForIncludedAngle(FirstOrderPattern.Omni, Side, new(90), Near.OneKilohertz);

        Assert.False(narrow.Reached);
        Assert.Equal(180, narrow.Got!.Value, 1e-9);
        Assert.True(RigSettings.ForIncludedAngle(FirstOrderPattern.Omni, Side, new(180), Near.OneKilohertz).Reached);
    }

    [Fact]
    public static void AVirtualPatternWiderThanTheMid_IsNotReachableAndTheMidItselfIsNearest()
    {
        var setting = RigSettings.ForPattern(FirstOrderPattern.Cardioid, Side, FirstOrderPattern.Subcardioid, Near.OneKilohertz);

        Assert.False(setting.Reached);
        Assert.Equal(0.5, setting.Got!.Value, 1e-5);
        Assert.Equal(RigSettings.Lowest, setting.SideLevel);
    }

    [Theory]
    [InlineData("cardioid", 0.5, "as good as no side")]
    [InlineData("cardioid", 0, "as good as no mid")]
    [InlineData("figure-8", 0.5, "nearest is 0 at a side level of 0.0 dB")]
    public static void APatternThatWouldLeaveMidOrSideAway_IsNotReachable(string mid, double share, string remark)
    {
        var setting = RigSettings.ForPattern(Near.Pattern(mid), Side, new FirstOrderPattern(share), Near.OneKilohertz);

        Assert.False(setting.Reached);
        Assert.EndsWith(remark, setting.Remark, StringComparison.Ordinal);
    }

    [Fact]
    public static void CardioidsCrossedAt90_NeedAMidWiderThanACardioid()
    {
        var setting = RigSettings.ForCrossedPair(FirstOrderPattern.Cardioid, Side, FirstOrderPattern.Cardioid, new(90), Near.OneKilohertz);

        Assert.False(setting.Reached);
        Assert.Equal(20 * Math.Log10(0.5), setting.SideLevel.Value, 1e-9);
        Assert.Contains("needs a mid of omni share 0.59 and this one has 0.50", setting.Remark, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("figure-8", 180)]
    [InlineData("omni", 90)]
    public static void ACrossedPairThatLeavesNoMidOrNoSide_HasNoMidSidePair(string pattern, double angle)
        => Assert.Null(RigSettings.FromCrossedPair(Near.Pattern(pattern), new(angle)));

    [Theory]
    [InlineData(0)]
    [InlineData(-10)]
    [InlineData(181)]
    [InlineData(double.NaN)]
    public static void AnImpossibleIncludedAngle_IsRefused(double angle)
        => Assert.Throws<ArgumentOutOfRangeException>(() => RigSettings.ForIncludedAngle(FirstOrderPattern.Cardioid, Side, new(angle), Near.OneKilohertz));
}
