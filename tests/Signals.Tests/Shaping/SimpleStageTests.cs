using Athwart.Signals.Shaping;

namespace Athwart.Signals.Tests.Shaping;

public sealed class SimpleStageTests
{
    [Fact]
    public void Swap_Twice_IsNothing()
    {
        var (mid, side) = StageProof.Noise(100, 1);
        var once = StageProof.Run(new SwapStage(), mid, side);
        StageProof.SameBits(mid, once.Side);
        StageProof.SameBits(side, once.Mid);
    }

    [Fact]
    public void Invert_OfTheSide_ExchangesLeftAndRight()
    {
        var (mid, side) = StageProof.Noise(100, 1);
        var done = StageProof.Run(new InvertStage(new(PairRoles.Side)), mid, side);
        for (var n = 0; n < mid.Length; n++)
            Assert.Equal(mid[n] + side[n], done.Mid[n] - done.Side[n]);
    }

    [Theory]
    [InlineData(-6, 0.50118723362727224), InlineData(20, 10), InlineData(0, 1), InlineData(double.NegativeInfinity, 0)]
    public void Trim_OfBoth_MultipliesByTheRatio(double decibels, double ratio)
    {
        var (mid, side) = StageProof.Noise(100, 1);
        var done = StageProof.Run(new TrimStage(new(PairRoles.Both, decibels)), mid, side);
        for (var n = 0; n < mid.Length; n++)
            Assert.Equal((mid[n] * ratio, side[n] * ratio), (done.Mid[n], done.Side[n]));
    }

    [Theory]
    [InlineData(PairRoles.Mid), InlineData(PairRoles.Side)]
    public void InvertAndTrim_OfOneRole_LeaveTheOther(PairRoles roles)
    {
        StageProof.LeavesTheOtherRole(new InvertStage(new(roles)), roles);
        StageProof.LeavesTheOtherRole(new TrimStage(new(roles, 3)), roles);
    }

    [Theory]
    [InlineData(PairRoles.None), InlineData((PairRoles)4), InlineData((PairRoles)7)]
    public void Roles_ThatAreNone_AreRefused(PairRoles roles) => Assert.Throws<ArgumentOutOfRangeException>(() => new Invert(roles));

    [Theory]
    [InlineData(100.5), InlineData(-101), InlineData(double.NaN), InlineData(double.PositiveInfinity)]
    public void Trim_OutOfRange_IsRefusedWithTheRange(double decibels) =>
        Assert.Contains("-100 to 100 dB", Assert.Throws<ArgumentOutOfRangeException>(() => new Trim(PairRoles.Mid, decibels)).Message, StringComparison.Ordinal);

    [Fact]
    public void Blocks_OfUnlikeLength_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => new SwapStage().Process(new double[3], new double[2]));
        Assert.Throws<ArgumentException>(() => new BellStage(new(PairRoles.Mid, 100, 3, 1), 48000).Process(new double[3], new double[2]));
    }
}
