using Athwart.Microphones.Patterns;

namespace Athwart.Microphones.Tests.Patterns;

public static class FirstOrderPatternTests
{
    [Fact]
    public static void EveryPattern_HearsItsAxisAtOne()
        => Assert.All(FirstOrderPattern.Named, pattern => Assert.Equal(1, pattern.Gain(0), 15));

    [Theory]
    [InlineData(-0.01)]
    [InlineData(1.01)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public static void AnOmniShareOutsideZeroToOne_IsRefusedWithTheRange(double share)
        => Assert.Contains("between 0 (figure-8) and 1 (omni)", Assert.Throws<ArgumentOutOfRangeException>(() => new FirstOrderPattern(share)).Message, StringComparison.Ordinal);
}
