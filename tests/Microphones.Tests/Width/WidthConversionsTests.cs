using Athwart.Microphones.Patterns;
using Athwart.Microphones.Rigs;
using Athwart.Microphones.Tests.Rigs;
using Athwart.Microphones.Width;
using Athwart.Quantities;
using CsCheck;

namespace Athwart.Microphones.Tests.Width;

public static class WidthConversionsTests
{
    private static WidthRig Known(string mid, double recorded = 0) => WidthRig.Of(Near.Pattern(mid), FirstOrderPattern.FigureEight, new(recorded));

    // The printed tables of side level by mid pattern (derived by another program): each column leads back to the level of its row.
    [Theory]
    [MemberData(nameof(PrintedTables.SideLevels), MemberType = typeof(PrintedTables))]
    public static void EachPrintedFigure_LeadsBackToItsSideLevel(
        string mid, double level, double gain, double angle, double share, double? silent, double onAxis, double? at15, double? at18, double correlation)
    {
        _ = (gain, share, silent);
        var rig = Known(mid);
        var figures = WidthFigures.Of(rig, new(level), Coverage.FullSide);
        Near.Printed(at15, figures.Coverage?.Value, 0.05);
        Near.Printed(angle, figures.Pair.IncludedAngle.Value, 0.005);
        Near.Printed(correlation, figures.DiffuseCorrelation, 0.00005);

        // Half a unit of the last printed digit, in dB of side level, wherever the table is steep enough to tell.
        Assert.Equal(level, WidthConversions.ForDiffuseCorrelation(rig, correlation).SideLevel.Value, 0.006);
        if (mid != "omni")
        {
            var pair = WidthConversions.ForIncludedAngle(rig, new(angle));
            Assert.Equal(level, pair.SideLevel.Value, 0.02);
            Assert.Equal(-onAxis, pair.MidTrim.Value, 0.01);
        }

        foreach (var (degrees, threshold) in new[] { (at15, Coverage.FullSide), (at18, Coverage.FullSideWide) })
        {
            // Of two side levels with one coverage, beyond the widest, the higher one is given.
            if (degrees is { } printed)
                Near.Printed(printed, WidthFigures.Of(rig, WidthConversions.ForCoverage(rig, new(printed), threshold).SideLevel, threshold).Coverage?.Value, 0.05);
        }
    }

    // Printed table of crossed pairs as mid and side (derived).
    [Theory]
    [MemberData(nameof(PrintedTables.CrossedPairs), MemberType = typeof(PrintedTables))]
    public static void EachPrintedCrossedPair_IsReachedWithTheMidItNeeds(
        string name, double angle, double midShare, double level, double at15, double at18, double correlation)
    {
        _ = at18;
        var rig = WidthRig.Of(new FirstOrderPattern(midShare), FirstOrderPattern.FigureEight, default(Decibels));
        var answer = WidthConversions.ForCrossedPair(rig, Near.Pattern(name), new(angle));

        Assert.True(answer.Reached, answer.Remark);
        if (midShare < 0.999)
            Assert.Equal(level, answer.SideLevel.Value, 0.01);
        var figures = WidthFigures.Of(rig, new(level), Coverage.FullSide);
        Assert.Equal(at15, figures.Coverage!.Value.Value, 0.2);
        Assert.Equal(correlation, figures.DiffuseCorrelation!.Value, 0.001);
    }

    // Named checks, derived and exact: equal gain behind a cardioid, a figure-8, an omni, a hypercardioid.
    [Theory]
    [InlineData("cardioid", 0, 0.0)]
    [InlineData("figure-8", 0, 0.0)]
    [InlineData("omni", 0.5, 0.0)]
    [InlineData("hypercardioid", -1.0 / 7, 0.0)]
    public static void ANamedDiffuseCorrelation_IsReachedAtEqualGain(string mid, double correlation, double level)
        => Assert.Equal(level, WidthConversions.ForDiffuseCorrelation(Known(mid), correlation).SideLevel.Value, 1e-9);

    [Fact]
    public static void ADiffuseCorrelation_ComesBackFromItsSideLevel()
        => Gen.Select(Gen.Double[0, 1], Gen.Double[-25, 25]).Sample((share, level) =>
        {
            var rig = WidthRig.Of(new FirstOrderPattern(share), FirstOrderPattern.FigureEight, new Decibels(1.5));
            var correlation = WidthFigures.Of(rig, new(level), Coverage.FullSide).DiffuseCorrelation!.Value;
            var answer = WidthConversions.ForDiffuseCorrelation(rig, correlation);
            Assert.True(answer.Reached, answer.Remark);
            Assert.Equal(level, answer.SideLevel.Value, 1e-6);
        });

    [Fact]
    public static void ADirectToDiffuseRatio_ComesBackFromItsSideLevel()
        => Gen.Select(Gen.Double[0, 1], Gen.Double[-20, 20]).Sample((share, level) =>
        {
            var rig = Known("cardioid") with { Mid = new FirstOrderPattern(share) };
            var ratio = WidthFigures.Of(rig, new(level), Coverage.FullSide).DirectToDiffuse;
            var answer = WidthConversions.ForDirectToDiffuse(rig, ratio);
            Assert.True(answer.Reached, answer.Remark);
            Assert.Equal(level, answer.SideLevel.Value, 1e-6);
        });

    // IEC 60268-4:2014, 13.2.2: the directivity index of an ideal cardioid is 4.77 dB; with no side nothing stands out more.
    [Fact]
    public static void MoreDirectSoundThanTheMidsDirectivity_IsNotReachable()
    {
        var answer = WidthConversions.ForDirectToDiffuse(Known("cardioid"), new(6));

        Assert.False(answer.Reached);
        Assert.Equal(10 * Math.Log10(3), answer.Got!.Value, 1e-4);
        Assert.Contains("not reachable", answer.Remark, StringComparison.Ordinal);
    }

    [Fact]
    public static void AMeasuredSideThatHearsSomeMid_HasItsCorrelationReachedToo()
    {
        // A side with an omni share of 0.2 is no figure-8: mid and side are then alike in a diffuse field.
        var rig = WidthRig.Of(FirstOrderPattern.Cardioid, new Unnamed(0.2), default(Decibels));
        var answer = WidthConversions.ForDiffuseCorrelation(rig, 0.3);

        Assert.True(answer.Reached, answer.Remark);
        Assert.Equal(0.3, WidthFigures.Of(rig, answer.SideLevel, Coverage.FullSide).DiffuseCorrelation!.Value, 1e-6);
    }

    [Fact]
    public static void ASideRecorded6DecibelsHotter_IsDecoded6DecibelsLower()
        => Assert.Equal(
            WidthConversions.ForCoverage(Known("cardioid"), new(90), Coverage.FullSide).SideLevel.Value - 6,
            WidthConversions.ForCoverage(Known("cardioid", 6), new(90), Coverage.FullSide).SideLevel.Value,
            1e-9);

    [Fact]
    public static void AnUnknownRig_IsAnsweredForAnIdealCardioidAndSaysSo()
    {
        var answer = WidthConversions.ForIncludedAngle(WidthRig.Assumed, new(90));

        Assert.Equal(20 * Math.Log10(0.5), answer.SideLevel.Value, 1e-9);
        Assert.Equal(3, answer.Assumptions.Count);
        Assert.Contains(answer.Assumptions, words => words.Contains("ideal cardioid", StringComparison.Ordinal));
        Assert.Empty(Known("cardioid").Assumptions);
    }

    // The table of docs/shaping-steps.md, by closed forms: g = k·(A + B·cos θ)/sin θ; tan 45° · B; √(R² − B²); √(⅓·PM/PS …).
    [Fact]
    public static void TheTableOfThePage_IsWhatTheConversionsGive()
    {
        var rig = Known("cardioid");
        Assert.Equal(-1.5, WidthConversions.ForCoverage(rig, new(90), Coverage.FullSide).SideLevel.Value, 0.05);
        Assert.Equal(-6.0, WidthConversions.ForIncludedAngle(rig, new(90)).SideLevel.Value, 0.05);
        Assert.Equal(-3.0, WidthConversions.ForVirtualPattern(rig, FirstOrderPattern.Supercardioid).SideLevel.Value, 0.05);
        Assert.Equal(-4.8, WidthConversions.ForDiffuseCorrelation(rig, 0.5).SideLevel.Value, 0.05);
        Assert.Equal(-3.0, WidthConversions.ForDirectToDiffuse(rig, new(3)).SideLevel.Value, 0.05);
    }

    [Fact]
    public static void ACoverage_NamesItsThreshold()
        => Assert.Contains("at 18 dB between left and right", WidthConversions.ForCoverage(WidthRig.Assumed, new(90), Coverage.FullSideWide).Remark, StringComparison.Ordinal);

    [Fact]
    public static void NoSide_IsMonoWithACorrelationOf1()
    {
        var figures = WidthFigures.Of(WidthRig.Assumed, Decibels.Silence, Coverage.FullSide);

        Assert.Equal(1, figures.DiffuseCorrelation!.Value, 1e-12);
        Assert.Null(figures.Coverage);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public static void AnImpossibleCorrelation_IsRefused(double correlation)
        => Assert.Throws<ArgumentOutOfRangeException>(() => WidthConversions.ForDiffuseCorrelation(WidthRig.Assumed, correlation));

    [Fact]
    public static void AWideRigGain_ThatIsNoNumber_IsRefused()
        => Assert.Throws<ArgumentOutOfRangeException>(() => WidthRig.Of(null, null, Decibels.Silence));
}
