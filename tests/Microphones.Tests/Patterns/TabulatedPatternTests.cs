using Athwart.Microphones.Patterns;
using Athwart.Quantities;

namespace Athwart.Microphones.Tests.Patterns;

public static class TabulatedPatternTests
{
    [Fact]
    public static void BetweenAngles_AmplitudeRunsLinearly()
    {
        var pattern = new TabulatedPattern(Row(1000, (0, 0), (90, -6.0205999132796239), (180, -20)));

        Assert.Equal(0.75, pattern.Gain(Math.PI / 4, 1000), 1e-12);
        Assert.Equal(0.3, pattern.Gain(Math.PI * 0.75, 1000), 1e-12);
        Assert.Equal(0.3, pattern.Gain(-Math.PI * 1.25, 1000), 1e-12);
        Assert.Equal(0.1, pattern.Gain(Math.PI, 1000), 1e-12);
    }

    [Fact]
    public static void BetweenFrequencies_AmplitudeRunsLinearlyAlongTheLogarithm_AndOutsideTheNearestHolds()
    {
        var pattern = new TabulatedPattern([.. Row(4000, (0, 0), (180, -20)), .. Row(1000, (0, 0), (180, 0))]);

        Assert.Equal(0.55, pattern.Gain(Math.PI, 2000), 1e-12);
        Assert.Equal(1, pattern.Gain(Math.PI, 20), 1e-12);
        Assert.Equal(0.1, pattern.Gain(Math.PI, 40_000), 1e-12);
        Assert.Equal([new Hertz(1000), new Hertz(4000)], pattern.Frequencies);
    }

    [Fact]
    public static void LevelsHaveNoSigns_UntilTheyAreMarkedOrSaidToTurn()
    {
        var points = Row(1000, (0, 0), (90, -40), (180, 0));

        Assert.Equal(1, new TabulatedPattern(points).Gain(Math.PI, 1000), 1e-12);
        Assert.Equal(-1, new TabulatedPattern(points, LobeBehind.Opposite).Gain(Math.PI, 1000), 1e-12);
        Assert.Equal(-1, new TabulatedPattern([points[0], points[1], points[2] with { Opposite = true }]).Gain(Math.PI, 1000), 1e-12);
    }

    [Fact]
    public static void ANullAtTheEnd_TurnsNothing()
        => Assert.Equal(0.5, new TabulatedPattern(Row(1000, (0, 0), (90, -6.0205999132796239), (180, double.NegativeInfinity)), LobeBehind.Opposite).Gain(Math.PI / 2, 1000), 1e-12);

    [Fact]
    public static void ACardioidInTable_HasTheFiguresOfACardioid()
    {
        var figures = PatternFigures.Of(Table(FirstOrderPattern.Cardioid, 5), new(1000));

        Assert.Equal(131.06, figures.ArcMinus3!.Value.Value, 0.1);
        Assert.Equal(180, figures.Null!.Value.Value, 1e-9);
        Assert.Equal(4.77, figures.DirectivityIndex.Value, 0.01);
        Assert.Equal(8.45, figures.FrontToBack.Value, 0.01);
    }

    [Theory]
    [InlineData("figure-8", true)]
    [InlineData("0.05", true)]
    [InlineData("0.1", false)]
    [InlineData("hypercardioid", false)]
    [InlineData("cardioid", false)]
    [InlineData("omni", false)]
    public static void OnlyAFigureEight_CanBeASide(string name, bool fit)
    {
        Assert.True(PatternNames.TryParse(name, out var pattern));
        Assert.Equal(fit, pattern.IsFigureEight());
        Assert.Equal(fit, Table(pattern, 10).IsFigureEight());
        Assert.Equal(fit, SideFitness.WhyNot(pattern) is null);
    }

    [Fact]
    public static void AFigureEightTableWithoutSigns_IsNoSide()
        => Assert.False(new TabulatedPattern(Row(1000, (0, 0), (90, -40), (180, 0))).IsFigureEight());

    [Fact]
    public static void WhatAWrongSideWouldDo_IsSaid()
    {
        Assert.Contains("only the left half would spread", SideFitness.WhyNot(FirstOrderPattern.Cardioid), StringComparison.Ordinal);
        Assert.Contains("left and right would not part", SideFitness.WhyNot(FirstOrderPattern.Omni), StringComparison.Ordinal);
        Assert.Contains("not alike", SideFitness.WhyNot(FirstOrderPattern.Hypercardioid), StringComparison.Ordinal);
    }

    public static TheoryData<string, double[]> Bad { get; } = new()
    {
        { "frequency must lie", [0, 0, 0] },
        { "frequency must lie", [double.NaN, 0, 0] },
        { "angle off the axis must lie", [1000, -10, 0] },
        { "angle off the axis must lie", [1000, 200, 0] },
        { "level must be a number", [1000, 90, double.NaN] },
        { "level must be a number", [1000, 90, 40] },
        { "given twice", [1000, 180, -3] },
        { "0 degrees must read 0 dB", [500, 0, -3, 500, 180, -3] },
        { "needs its level at 0 and at 180", [500, 0, 0] },
    };

    [Theory]
    [MemberData(nameof(Bad))]
    public static void ABadTable_IsRefusedWithItsPlaceAndTheRemedy(string expected, double[] extra)
    {
        var points = Row(1000, (0, 0), (180, -10)).Concat(extra.Chunk(3).Select(p => new PatternPoint(new(p[0]), new(p[1]), new(p[2]))));

        var refused = Assert.Throws<ArgumentException>(() => new TabulatedPattern(points));

        Assert.Contains(expected, refused.Message, StringComparison.Ordinal);
        Assert.Contains("Hz", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public static void TablesWithTheSamePoints_AreEqualInAnyOrder()
    {
        var points = Row(1000, (0, 0), (90, -6), (180, -20));

        Assert.Equal(new TabulatedPattern(points), new TabulatedPattern(points.Reverse()));
        Assert.Equal(new TabulatedPattern(points).GetHashCode(), new TabulatedPattern(points.Reverse()).GetHashCode());
        Assert.NotEqual(new TabulatedPattern(points), new TabulatedPattern(points, LobeBehind.Opposite));
    }

    [Fact]
    public static void AnEmptyTable_IsRefused() => Assert.Throws<ArgumentException>(() => new TabulatedPattern([]));

    internal static TabulatedPattern Table(FirstOrderPattern pattern, int step) => new(
        Enumerable.Range(0, (180 / step) + 1).Select(i => new Degrees(i * step)).Select(angle => new PatternPoint(
            new(1000), angle, Decibels.FromAmplitudeRatio(pattern.Gain(angle.Radians)), pattern.Gain(angle.Radians) < 0)));

    internal static PatternPoint[] Row(double hertz, params (double Degrees, double Decibels)[] levels)
        => [.. levels.Select(level => new PatternPoint(new(hertz), new(level.Degrees), new(level.Decibels)))];
}
