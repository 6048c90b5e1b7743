using Athwart.Microphones.Patterns;

namespace Athwart.Microphones.Tests;

public static class FirstOrderPatternTests
{
    [Fact]
    public static void EveryPattern_HearsItsAxisAtOne()
        => Assert.All(FirstOrderPattern.Named, pattern => Assert.Equal(1, pattern.Gain(0), 15));
}
