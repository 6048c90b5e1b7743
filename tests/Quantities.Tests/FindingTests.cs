namespace Athwart.Quantities.Tests;

public sealed class FindingTests
{
    private static Finding Sample { get; } = new() { Kind = "flat-tops", Severity = FindingSeverity.Fault, Message = "12 flat tops in the mid." };

    [Fact]
    public void AFinding_IsCertainAndConcernsTheWholeUnlessSaid()
    {
        Assert.Equal(1, Sample.Confidence);
        Assert.Null(Sample.Range);
        Assert.Null(Sample.Role);
        Assert.Null(Sample.File);
        Assert.Null(Sample.Size);
        Assert.Empty(Sample.Evidence);
        Assert.Equal("", Sample.Remedy);
    }

    [Fact]
    public void Severities_OrderFromNoteToFault() =>
        Assert.True(FindingSeverity.Note < FindingSeverity.Caution && FindingSeverity.Caution < FindingSeverity.Fault);

    [Fact]
    public void DefaultRole_IsOther() => Assert.Equal(ChannelRole.Other, default);

    [Theory]
    [InlineData(31.2, "dB", "side below mid 31.2 dB")]
    [InlineData(0.12345, "", "side below mid 0.123")]
    public void Evidence_IsShownWithItsUnit(double value, string unit, string expected) =>
        Assert.Equal(expected, new Evidence("side below mid", value, unit).ToString());
}
