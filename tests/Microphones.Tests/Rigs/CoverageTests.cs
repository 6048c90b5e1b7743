using Athwart.Microphones.Patterns;
using Athwart.Microphones.Rigs;
using Athwart.Microphones.Tests.Patterns;
using CsCheck;

namespace Athwart.Microphones.Tests.Rigs;

public static class CoverageTests
{
    [Fact]
    public static void TheClosedForm_IsTheFirstCrossingOfTheLevelDifference()
        => Gen.Select(Gen.Double[0, 1], Gen.Double[-30, 30], Gen.Double[1, 30]).Sample((share, level, threshold) =>
        {
            var pair = MidSidePair.WithFigureEight(new FirstOrderPattern(share), new(level));
            var closed = Coverage.Of(pair, new(threshold), Near.OneKilohertz)?.Value / 2;
            var scanned = FirstCrossing(pair, threshold);

            // A summit that only just touches the threshold may fall between two steps.
            if (closed is null || scanned is null)
                Assert.True(closed is null == scanned is null || Math.Abs(Highest(pair) - threshold) < 0.01, $"{closed} against {scanned}");
            else
                Assert.InRange(scanned.Value - closed.Value, -1e-9, 0.05 + 1e-9);
        }, iter: 300);

    [Fact]
    public static void AtItsEdge_LeftAndRightDifferByTheThreshold()
        => Gen.Select(Gen.Double[0, 1], Gen.Double[-30, 30], Gen.Double[1, 30]).Sample((share, level, threshold) =>
        {
            var pair = MidSidePair.WithFigureEight(new FirstOrderPattern(share), new(level));
            if (Coverage.Of(pair, new(threshold), Near.OneKilohertz) is { } coverage)
                Assert.Equal(threshold, pair.LevelDifference(new(coverage.Value / 2), Near.OneKilohertz)!.Value.Value, 1e-5);
        });

    [Fact]
    public static void ThePatternThatDoesNotSayWhatItIs_IsScannedToTheSame()
        => Gen.Select(Gen.Double[0, 0.95], Gen.Double[-6, 12]).Sample((share, level) =>
        {
            var closed = Coverage.Of(MidSidePair.WithFigureEight(new FirstOrderPattern(share), new(level)), Coverage.FullSide, Near.OneKilohertz);
            var scanned = Coverage.Of(MidSidePair.WithFigureEight(new Unnamed(share), new(level)), Coverage.FullSide, Near.OneKilohertz);
            if (closed is { Value: < 200 })
                Assert.Equal(closed.Value.Value, scanned!.Value.Value, 1e-6);
        }, iter: 200);

    // Derived: with an omni the difference is largest at 90°, 20·lg((1 + g)/(1 − g)).
    [Fact]
    public static void AnOmniWithLittleSide_NeverReachesTheThreshold()
    {
        var pair = MidSidePair.WithFigureEight(FirstOrderPattern.Omni, new(-6));

        Assert.Null(Coverage.Of(pair, Coverage.FullSide, Near.OneKilohertz));
        Assert.Null(Coverage.Of(pair with { Mid = new Unnamed(1) }, Coverage.FullSide, Near.OneKilohertz));
        Assert.Equal(20 * Math.Log10((1 + pair.SideLevel.AmplitudeRatio) / (1 - pair.SideLevel.AmplitudeRatio)), Highest(pair), 1e-9);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-3)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public static void AThresholdThatIsNone_IsRefused(double threshold)
        => Assert.Throws<ArgumentOutOfRangeException>(() => Coverage.Of(MidSidePair.WithFigureEight(FirstOrderPattern.Cardioid, default), new(threshold), Near.OneKilohertz));

    [Fact]
    public static void AMeasuredCardioid_CoversWhatACardioidCovers()
    {
        var pair = MidSidePair.WithFigureEight(TabulatedPatternTests.Table(FirstOrderPattern.Cardioid, 10), default) with
        {
            Side = TabulatedPatternTests.Table(FirstOrderPattern.FigureEight, 10),
        };

        Assert.Equal(77.0, Coverage.Of(pair, Coverage.FullSide, Near.OneKilohertz)!.Value.Value, 0.5);
        Assert.Equal(0, DiffuseField.Of(pair, Near.OneKilohertz).Correlation!.Value, 0.005);
        Assert.Equal(126.87, VirtualPair.Of(pair, Near.OneKilohertz).IncludedAngle.Value, 0.1);
        Assert.InRange(VirtualPair.Of(pair, Near.OneKilohertz).FitError, 1e-6, 0.01);
    }

    private static double? FirstCrossing(MidSidePair pair, double threshold)
    {
        for (var i = 1; i <= 3600; i++)
        {
            // Straight behind the side is deaf and a null of the mid leaves nothing to compare.
            if (Math.Abs(pair.LevelDifference(new(i * 0.05), Near.OneKilohertz)?.Value ?? 0) >= threshold && i < 3600)
                return i * 0.05;
        }

        return null;
    }

    private static double Highest(MidSidePair pair) => Enumerable.Range(1, 3599)
        .Max(i => Math.Abs(pair.LevelDifference(new(i * 0.05), Near.OneKilohertz)?.Value ?? 0));
}
