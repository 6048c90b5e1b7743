using Athwart.Metering.Faults;
using Athwart.Metering.Tests.Support;
using Athwart.Quantities;
using static Athwart.Metering.Tests.Faults.FaultSignals;

namespace Athwart.Metering.Tests.Faults;

public class DamageTests
{
    private const int Count = 4 * Tones.Rate;

    private static float[] Mid => Ambience(Count, 0.005, 1);

    private static float[] Side => Ambience(Count, 0.002, 2);

    [Theory]
    [InlineData(50_000, 1, 0.02)]
    [InlineData(50_001, 1, -0.3)]
    [InlineData(4096, 1, 0.1)]
    [InlineData(4095, 2, 0.1)]
    [InlineData(8191, 3, 0.1)]
    public void AClick_IsFoundAtItsFrames(int at, int length, double size)
    {
        var mid = Mid;
        for (var i = 0; i < length; i++)
            mid[at + i] += (float)(i % 3 == 0 ? size : -size);
        var finding = Assert.Single(Find(FaultKinds.Click, mid, Side));
        Assert.Equal((ChannelRole.Mid, FrameRange.FromFrames(at, at + length)), (finding.Role, finding.Range));
        Assert.Equal(20 * Math.Log10(Math.Abs(size)), finding.Size!.Value, tolerance: 1.0);
    }

    [Theory]
    [InlineData(44_100)]
    [InlineData(96_000)]
    [InlineData(192_000)]
    public void ClicksInTheSide_AreFoundAtEveryRate(int rate)
    {
        var side = Ambience(rate * 2, 0.002, 3, rate: rate);
        side[rate] -= 0.05f;
        var finding = Assert.Single(Find(FaultKinds.Click, Ambience(rate * 2, 0.005, 4, rate: rate), side, rate));
        Assert.Equal((ChannelRole.Side, FrameRange.FromFrames(rate, rate + 1)), (finding.Role, finding.Range));
    }

    [Fact]
    public void AShortSoundThatBothCapsulesHear_IsNoClick()
    {
        var (mid, side) = (Mid, Side);
        // A band-limited click at 0.25 of the rate and less: a raised cosine of nine samples.
        for (var i = 0; i < 9; i++)
        {
            mid[90_000 + i] += (float)(0.2 * (1 - Math.Cos(2 * Math.PI * (i + 1) / 10)) * (i % 4 < 2 ? 1 : -1));
            side[90_000 + i] += (float)(0.08 * (1 - Math.Cos(2 * Math.PI * (i + 1) / 10)) * (i % 4 < 2 ? 1 : -1));
        }

        Assert.Empty(Find(FaultKinds.Click, mid, side));
    }

    [Fact]
    public void ClapsAndSteps_AreNoDamage()
    {
        var (mid, side) = (Mid, Side);
        for (var i = 0; i < 12; i++)
        {
            AddClap(mid, 5_000 + (15_000 * i), 0.9, 0.002 * (i + 1), 40 + i);
            AddClap(side, 5_000 + (15_000 * i), 0.4, 0.002 * (i + 1), 80 + i);
        }

        AssertUndamaged(mid, side);
    }

    [Theory]
    [InlineData(50)]
    [InlineData(997)]
    [InlineData(12_345)]
    [InlineData(21_000)]
    public void TonesInNoise_AreNoDamage(double hertz) => AssertUndamaged(Mid.Plus(Sine(Count, hertz, 0.4)), Side.Plus(Sine(Count, hertz * 1.01, 0.3)));

    [Fact]
    public void WhiteNoise_IsNoDamage() => AssertUndamaged(Tones.Noise(Count, 0.5, 5), Tones.Noise(Count, 0.25, 6));

    [Theory]
    [InlineData(true, true)]
    [InlineData(true, false)]
    [InlineData(false, true)]
    public void ADropout_IsFoundToTheFrame(bool inMid, bool inSide)
    {
        var (mid, side) = (Mid, Side);
        if (inMid)
            mid.AsSpan(60_007, 333).Clear();
        if (inSide)
            side.AsSpan(60_007, 333).Clear();
        var finding = Assert.Single(Find(FaultKinds.Dropout, mid, side));
        Assert.Equal(FrameRange.FromFrames(60_007, 60_340), finding.Range);
        Assert.Equal(inMid && inSide ? null : inMid ? ChannelRole.Mid : ChannelRole.Side, finding.Role);
    }

    [Theory]
    [InlineData(70_000, 64)]
    [InlineData(70_001, 512)]
    [InlineData(81_915, 4096)]
    [InlineData(100_000, 8192)]
    public void ABlockWrittenTwice_IsFoundToTheFrame(int at, int length)
    {
        var (mid, side) = (Mid.Rounded(24), Side.Rounded(24));
        mid.AsSpan(at - length, length).CopyTo(mid.AsSpan(at));
        side.AsSpan(at - length, length).CopyTo(side.AsSpan(at));
        var finding = Assert.Single(Find(FaultKinds.RepeatedBlock, mid, side));
        Assert.Equal(FrameRange.FromFrames(at, at + length), finding.Range);
    }

    [Theory]
    [InlineData(480)]
    [InlineData(4096)]
    public void AMissingBlock_IsFoundWhereItIsMissing(int length)
    {
        var (mid, side) = (Ambience(Count, 0.1, 7, 100), Ambience(Count, 0.05, 8, 100));
        // Low tones in both: what is missing moves them by a part of their period.
        mid = mid.Times(0.02).Plus(Sine(Count, 131.3, 0.1));
        side = side.Times(0.02).Plus(Sine(Count, 131.3, 0.05));
        float[] Cut(float[] x) => [.. x[..80_000], .. x[(80_000 + length)..]];
        var finding = Assert.Single(Find(FaultKinds.MissingBlock, Cut(mid), Cut(side)));
        Assert.Null(finding.Role);
        Assert.InRange(finding.Range!.Value.From.Value, 79_999, 80_001);
    }

    private static void AssertUndamaged(float[] mid, float[] side)
    {
        string[] damage = [FaultKinds.Click, FaultKinds.Dropout, FaultKinds.RepeatedBlock, FaultKinds.MissingBlock, FaultKinds.Discontinuity];
        Assert.DoesNotContain(Find(mid, side), f => damage.Contains(f.Kind));
    }
}
