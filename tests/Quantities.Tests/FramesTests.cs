using CsCheck;

namespace Athwart.Quantities.Tests;

public sealed class FramesTests
{
    [Fact]
    public void FortyEightThousandFrames_LastASecondAt48Kilohertz()
    {
        Assert.Equal(TimeSpan.FromSeconds(1), new FrameCount(48000).At(48000));
        Assert.Equal(TimeSpan.FromSeconds(1), new FrameIndex(48000).At(48000));
    }

    // The longest take the project promises to read: 4 hours at 192 kHz, past 2^31 frames.
    [Fact]
    public void ATakePastTwoToThe31Frames_KeepsItsTime() =>
        Assert.Equal(TimeSpan.FromHours(4), new FrameCount(4L * 3600 * 192000).At(192000));

    [Fact]
    public void Defaults_AreTheFirstFrameAndNoFrames()
    {
        Assert.Equal(0, default(FrameIndex).Value);
        Assert.Equal(0, default(FrameCount).Value);
        Assert.Equal(0, default(FrameRange).Length.Value);
    }

    [Fact]
    public void ARange_HoldsItsStartAndNotItsEnd()
    {
        var range = FrameRange.FromFrames(100, 250);

        Assert.Equal((100, 250, 150), (range.From.Value, range.To.Value, range.Length.Value));
    }

    [Fact]
    public void AnEmptyRange_IsAllowed() => Assert.Equal(0, FrameRange.FromFrames(7, 7).Length.Value);

    [Theory]
    [InlineData(-1, 5)]
    [InlineData(5, 4)]
    [InlineData(long.MinValue, long.MaxValue)]
    public void ARangeThatRunsBackOrStartsBeforeTheTake_IsRefused(long from, long to) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => FrameRange.FromFrames(from, to));

    [Fact]
    public void GoingForthAndBack_EndsWhereItBegan() => Gen.Select(Gen.Long[0, 1L << 40], Gen.Long[0, 1L << 40]).Sample((index, count) =>
    {
        var start = new FrameIndex(index);
        Assert.Equal(new FrameCount(count), start + new FrameCount(count) - start);
    });

    [Fact]
    public void FrameNumbers_AreShownBare()
    {
        Assert.Equal("1234567", new FrameIndex(1234567).ToString());
        Assert.Equal("1234567", new FrameCount(1234567).ToString());
    }
}
