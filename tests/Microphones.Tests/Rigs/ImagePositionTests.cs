using Athwart.Microphones.Patterns;
using Athwart.Microphones.Rigs;
using Athwart.Quantities;
using CsCheck;

namespace Athwart.Microphones.Tests.Rigs;

public static class ImagePositionTests
{
    // Derived from the tangent law (read in a stored copy) and the sine law and 7.5 %/dB (from memory), ±30° base, as printed.
    [Theory]
    [InlineData(1, 1.90, 1.65, 7.5)]
    [InlineData(2, 3.79, 3.29, 15)]
    [InlineData(3, 5.64, 4.90, 22.5)]
    [InlineData(4, 7.44, 6.50, 30)]
    [InlineData(6, 10.86, 9.56, 45)]
    [InlineData(8, 13.96, 12.43, 60)]
    [InlineData(10, 16.70, 15.06, 75)]
    [InlineData(12, 19.06, 17.41, 90)]
    [InlineData(15, 21.95, 20.43, 100)]
    [InlineData(18, 24.14, 22.84, 100)]
    [InlineData(20, 25.28, 24.15, 100)]
    public static void TheImage_IsWhereTheTablePutsIt(double difference, double tangent, double sine, double linear)
    {
        Near.Printed(tangent, ImagePosition.ByTangentLaw(new Decibels(difference)).Value, 0.005);
        Near.Printed(sine, ImagePosition.BySineLaw(new(difference)).Value, 0.005);
        Near.Printed(linear, ImagePosition.ByLinearRule(new(difference)), 1e-9);
        Near.Printed(-tangent, ImagePosition.ByTangentLaw(new Decibels(-difference)).Value, 0.005);
        Near.Printed(-linear, ImagePosition.ByLinearRule(new(-difference)), 1e-9);
    }

    // Derived, as printed.
    [Theory]
    [InlineData(5, 2.65, 3.06)]
    [InlineData(10, 5.48, 6.29)]
    [InlineData(15, 8.73, 9.96)]
    [InlineData(20, 12.89, 14.53)]
    [InlineData(25, 19.46, 21.53)]
    public static void TheDifferenceForAnImage_IsWhatTheTableGives(double image, double tangent, double sine)
    {
        Near.Printed(tangent, ImagePosition.DifferenceByTangentLaw(new(image)).Value, 0.005);
        Near.Printed(sine, ImagePosition.DifferenceBySineLaw(new(image)).Value, 0.005);
    }

    // Three-point listening figures for pure level differences (Simonsen 1984), from memory: both laws must lie near them.
    [Theory]
    [InlineData(2.5, 10, 6)]
    [InlineData(5.5, 20, 11)]
    public static void FromMemory_ListenersPlaceImagesFartherOutThanTheTangentLaw(double difference, double heard, double atMost)
        => Assert.InRange(heard - ImagePosition.ByTangentLaw(new Decibels(difference)).Value, 0, atMost);

    [Fact]
    public static void NeitherLaw_ReachesTheLoudspeakerBeforeInfinity()
    {
        Assert.True(ImagePosition.ByTangentLaw(new Decibels(60)).Value < 30);
        Assert.Equal(30, ImagePosition.ByTangentLaw(new Decibels(double.PositiveInfinity)).Value, 1e-9);
        Assert.Equal(-30, ImagePosition.BySineLaw(new(double.NegativeInfinity)).Value, 1e-9);
        Assert.True(double.IsPositiveInfinity(ImagePosition.DifferenceByTangentLaw(new(30)).Value));
        Assert.Throws<ArgumentOutOfRangeException>(() => ImagePosition.DifferenceByTangentLaw(new(31)));
    }

    [Fact]
    public static void ADifference_ComesBackFromItsImage()
        => Gen.Double[-40, 40].Sample(difference =>
        {
            Assert.Equal(difference, ImagePosition.DifferenceByTangentLaw(ImagePosition.ByTangentLaw(new Decibels(difference))).Value, 1e-6);
            Assert.Equal(difference, ImagePosition.DifferenceBySineLaw(ImagePosition.BySineLaw(new(difference))).Value, 1e-6);
        });

    [Fact]
    public static void ASourceOnTheLeft_LandsLeft_AndFullyAtTheEdgeOfTheCoverage()
    {
        var pair = MidSidePair.WithFigureEight(FirstOrderPattern.Cardioid, default);

        Assert.InRange(Image(pair, 20).Image!.Value.Value, 1, 29);
        Assert.Equal(0, Image(pair, 0).Image!.Value.Value, 1e-9);
        Assert.False(Image(pair, 38).FullySideways);
        Assert.True(Image(pair, 39).FullySideways);
        Assert.Equal(Image(pair, 20).Image!.Value.Value, -Image(pair, -20).Image!.Value.Value, 1e-9);
    }

    [Fact]
    public static void WithAnOmniMid_BehindLandsWhereAheadDoes()
    {
        var behind = BehindImage.Of(MidSidePair.WithFigureEight(FirstOrderPattern.Omni, new(-6)), new(30), Coverage.FullSide, Near.OneKilohertz);

        Assert.Equal(behind.Ahead.Image!.Value.Value, behind.Behind.Image!.Value.Value, 1e-9);
        Assert.Equal(0, behind.LevelDifference.Value, 1e-9);
        Assert.Contains("cannot be told apart", behind.Words, StringComparison.Ordinal);
    }

    [Fact]
    public static void WithACardioidMid_BehindIsQuieterAndInOppositePolarity()
    {
        var behind = BehindImage.Of(MidSidePair.WithFigureEight(FirstOrderPattern.Cardioid, default), new(30), Coverage.FullSide, Near.OneKilohertz);

        Assert.Equal(150, behind.Behind.Azimuth.Value, 1e-12);
        Assert.True(behind.Behind.OppositePolarity);
        Assert.False(behind.Behind.Mirrored);
        Assert.InRange(behind.LevelDifference.Value, -20, -3);
        Assert.Contains("opposite polarity", behind.Words, StringComparison.Ordinal);
    }

    [Fact]
    public static void WithAFigureEightMid_BehindIsTheFrontMirrored()
    {
        var behind = BehindImage.Of(MidSidePair.WithFigureEight(FirstOrderPattern.FigureEight, new(-6)), new(30), Coverage.FullSide, Near.OneKilohertz);

        Assert.True(behind.Behind.MidInverted);
        Assert.True(behind.Behind.Mirrored);
        Assert.Equal(-behind.Ahead.Image!.Value.Value, behind.Behind.Image!.Value.Value, 1e-9);
        Assert.Equal(0, behind.LevelDifference.Value, 1e-9);
        Assert.Contains("wrong side", behind.Words, StringComparison.Ordinal);
    }

    [Fact]
    public static void StraightBehindACardioidMid_NothingIsHeard()
    {
        var rear = Image(MidSidePair.WithFigureEight(FirstOrderPattern.Cardioid, default), 180);

        Assert.Null(rear.LevelDifference);
        Assert.Null(rear.Image);
        Assert.Equal(double.NegativeInfinity, rear.LevelAgainstFront.Value);
    }

    [Fact]
    public static void AroundInSteps_EachSourceHasItsMirrorImage()
    {
        var images = SourceImage.Around(MidSidePair.WithFigureEight(FirstOrderPattern.Hypercardioid, new(-3)), new(15), Coverage.FullSide, Near.OneKilohertz);

        Assert.Equal(25, images.Count);
        for (var i = 0; i < images.Count; i++)
            Assert.Equal(-images[i].Image!.Value.Value, images[^(i + 1)].Image!.Value.Value, 1e-6);
    }

    private static SourceImage Image(MidSidePair pair, double azimuth) => SourceImage.Of(pair, new(azimuth), Coverage.FullSide, Near.OneKilohertz);
}
