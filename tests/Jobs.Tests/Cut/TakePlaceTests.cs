using Athwart.Jobs.Cut;

namespace Athwart.Jobs.Tests.Cut;

public sealed class TakePlaceTests
{
    private const int Rate = 48000;
    private const long Frames = 10 * Rate;

    [Theory]
    [InlineData("0", 0)]
    [InlineData("2.5", 120000)]
    [InlineData("2.5s", 120000)]
    [InlineData("0:02.5", 120000)]
    [InlineData("1:00:00", 172800000)]
    [InlineData("480f", 480)]
    [InlineData("start", 0)]
    [InlineData("End", 480000)]
    [InlineData("-2", 384000)]
    [InlineData("-480f", 479520)]
    public void APlaceIsReadAsWritten(string text, long frame)
    {
        Assert.True(TakePlace.TryParse(text, out var place));
        Assert.Equal(frame, place.Resolve(Rate, Frames));
    }

    [Theory]
    [InlineData("")]
    [InlineData("soon")]
    [InlineData("1:2:3:4")]
    [InlineData("1.5:00")]
    [InlineData("NaN")]
    [InlineData("1e9")]
    [InlineData("2,5")]
    public void WhatIsNoPlaceIsRefused(string text) => Assert.False(TakePlace.TryParse(text, out _));
}
