using Athwart.Microphones.Patterns;
using Athwart.Microphones.Rigs;
using Athwart.Microphones.Tests.Patterns;

namespace Athwart.Microphones.Tests.Rigs;

public static class PairOverFrequencyTests
{
    private static readonly MidSidePair Plain = MidSidePair.WithFigureEight(FirstOrderPattern.Cardioid, default);

    [Fact]
    public static void AFirstOrderPairWithFlatEnds_IsTheSameInEveryBand()
    {
        var over = PairOverFrequency.Of(Plain, default, Coverage.FullSide);

        Assert.Empty(over.Statements);
        Assert.Equal(31, over.Bands.Count);
        Assert.Equal(20, over.Bands[0].Frequency.Value, 0.1);
        Assert.Equal(20_000, over.Bands[^1].Frequency.Value, 60.0);
        Assert.All(over.Bands, band => Assert.Equal(77.0, band.Coverage!.Value.Value, 0.05));
    }

    [Fact]
    public static void ALowEnd_Is3DecibelsDownAtItsCorner()
        => Assert.Equal(-10 * Math.Log10(2), 20 * Math.Log10(PairOverFrequency.LowEndGain(new(80), new(80))), 1e-12);

    // Closed form: with the side's corner f3 and a flat mid the side is 6 dB down where f = f3/√(10^0.6 − 1).
    [Fact]
    public static void ASideThatFallsAwayEarlier_NarrowsThePairToMonoBelow()
    {
        var over = PairOverFrequency.Of(Plain, new(null, new(155)), Coverage.FullSide);

        Assert.Equal("below 90 Hz this pair narrows to mono: the side is 6 dB or more down against the mid", Assert.Single(over.Statements));
        Assert.True(over.Bands[0].Coverage!.Value > over.Bands[^1].Coverage!.Value);
        Assert.True(over.Bands[0].Correlation > 0.9);
        Assert.All(over.Bands.Where(band => band.Frequency.Value < 85), band => Assert.True(band.SideLevel.Value < -6));
        Assert.All(over.Bands.Where(band => band.Frequency.Value > 95), band => Assert.True(band.SideLevel.Value > -6));
    }

    [Fact]
    public static void EqualLowEnds_SayNothing()
        => Assert.Empty(PairOverFrequency.Of(Plain, new(new(60), new(60)), Coverage.FullSide).Statements);

    [Fact]
    public static void ASlightlyHigherSideCorner_NeverComesTo6Decibels()
        => Assert.Empty(PairOverFrequency.Of(Plain, new(new(40), new(60)), Coverage.FullSide).Statements);

    [Fact]
    public static void AMidThatFallsAwayEarlier_LosesTheMiddle()
        => Assert.StartsWith("below 90 Hz this pair loses its middle", Assert.Single(PairOverFrequency.Of(Plain, new(new(155), null), Coverage.FullSide).Statements), StringComparison.Ordinal);

    [Fact]
    public static void AMeasuredMidThatBeams_PullsTheImageApartAbove()
    {
        var mid = new TabulatedPattern(
        [
            .. TabulatedPatternTests.Row(1000, (0, 0), (45, -1), (90, -6), (135, -16), (180, -30)),
            .. TabulatedPatternTests.Row(8000, (0, 0), (45, -1.5), (90, -7), (135, -16), (180, -25)),
            .. TabulatedPatternTests.Row(16_000, (0, 0), (30, -6), (60, -18), (90, -25), (180, -30)),
        ]);

        var over = PairOverFrequency.Of(Plain with { Mid = mid }, default, Coverage.FullSide);

        var statement = Assert.Single(over.Statements);
        Assert.Matches("^above (10|11|12|13) kHz the mid beams and the image pulls apart", statement);
        Assert.True(over.Bands[^1].Coverage < over.Bands[17].Coverage);
        Assert.True(over.Bands[^1].MidDirectivity > over.Bands[17].MidDirectivity);
    }

    [Fact]
    public static void UltrasonicBands_AreThereWhenAskedFor()
        => Assert.Equal(38, PairOverFrequency.Of(Plain, default, Coverage.FullSide, new(100_000)).Bands.Count);

    [Theory]
    [InlineData(0)]
    [InlineData(-20)]
    [InlineData(30_000)]
    [InlineData(double.NaN)]
    public static void AnImpossibleLowEnd_IsRefused(double hertz)
        => Assert.Throws<ArgumentOutOfRangeException>(() => PairOverFrequency.Of(Plain, new(new(hertz), null), Coverage.FullSide));
}
