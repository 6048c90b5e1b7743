using Athwart.Microphones.Patterns;

namespace Athwart.Microphones.Tests.Patterns;

public static class PatternNamesTests
{
    [Theory]
    [InlineData("cardioid", 0.5)]
    [InlineData(" Cardioid ", 0.5)]
    [InlineData("omni", 1)]
    [InlineData("OMNIDIRECTIONAL", 1)]
    [InlineData("wide cardioid", 0.7)]
    [InlineData("sub-cardioid", 0.7)]
    [InlineData("hyper cardioid", 0.25)]
    [InlineData("figure-8", 0)]
    [InlineData("figure-eight", 0)]
    [InlineData("Figure of Eight", 0)]
    [InlineData("fig_8", 0)]
    [InlineData("bidirectional", 0)]
    [InlineData("omni share 0.6", 0.6)]
    [InlineData("omni share=0.6", 0.6)]
    [InlineData("0.6", 0.6)]
    [InlineData("60 %", 0.6)]
    [InlineData("0", 0)]
    [InlineData("1", 1)]
    public static void AKnownWordOrShare_IsRead(string text, double share)
    {
        Assert.True(PatternNames.TryParse(text, out var pattern));
        Assert.Equal(share, pattern.OmniShare, 12);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("  ")]
    [InlineData("shotgun")]
    [InlineData("1.1")]
    [InlineData("-0.1")]
    [InlineData("NaN")]
    [InlineData("0,6")]
    [InlineData("140 %")]
    [InlineData("8")]
    public static void WhatIsNoPattern_IsNotRead(string? text) => Assert.False(PatternNames.TryParse(text, out _));

    [Fact]
    public static void EveryNameThatIsPrinted_IsReadBack()
        => Assert.All([.. FirstOrderPattern.Named, new(0.6), new(0.4142)], pattern =>
        {
            Assert.True(PatternNames.TryParse(pattern.Name, out var read));
            Assert.Equal(pattern, read);
        });
}
