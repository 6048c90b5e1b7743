using System.Globalization;
using Athwart.Signals.Shaping;
using CsCheck;

namespace Athwart.Signals.Tests.Shaping.Dynamics;

public sealed class WidthOverTimeTests
{
    [Fact]
    public void BetweenTwoPoints_TheGainIsStraightInDecibels()
    {
        // 10 dB in a tenth of a second at 48 kHz, points off the grid of the lines.
        var gains = Gains(new WidthOverTime([new(1003, -6), new(5803, 4)]), 8000);
        double worst = 0;
        for (var n = 0; n < gains.Length; n++)
        {
            var expected = -6 + (10 * Math.Clamp((n - 1003) / 4800.0, 0, 1));
            worst = Math.Max(worst, Math.Abs(StageRun.Level(gains[n]) - expected));
        }

        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"within {worst:0.0000000} dB of the law"));
        Assert.True(worst < 1.7e-5, $"{worst}");
        Assert.Equal(Math.Pow(10, -0.3), gains[1003], 1e-15);
        Assert.Equal(Math.Pow(10, 0.2), gains[5803], 1e-15);
    }

    [Fact]
    public void ToSilenceAndBack_TheGainIsStraightInAmplitude()
    {
        var gains = Gains(new WidthOverTime([new(0, 0), new(1000, double.NegativeInfinity), new(3000, 6)]), 3500);

        Assert.Equal(0.5, gains[500], 1e-12);
        Assert.Equal(0, gains[1000]);
        Assert.Equal(Math.Pow(10, 0.3) / 2, gains[2000], 1e-12);
        Assert.Equal(gains[3000], gains[3499]);
    }

    // Zipper-free: no frame is farther from its neighbour than the law moves, but for the bow of the law over a line of 16 frames (3 dB here).
    [Fact]
    public void AnyPoints_MoveNoFasterThanTheirLawFromFrameToFrame()
        => Gen.Select(Gen.Int[160, 400], Gen.Int[160, 400], Gen.Double[-20, 10], Gen.Double[-20, 10], Gen.Double[-20, 10]).Sample((first, second, a, b, c) =>
        {
            var gains = Gains(new WidthOverTime([new(100, a), new(100 + first, b), new(100 + first + second, c)]), 1000);
            var fastest = Math.Max(Math.Abs(b - a) / first, Math.Abs(c - b) / second);
            for (var n = 1; n < gains.Length; n++)
                Assert.True(Math.Abs(StageRun.Level(gains[n] / gains[n - 1])) <= (fastest * 1.25) + 1e-9, $"{n}");
        }, iter: 200);

    [Fact]
    public void OnePointAt0Decibels_KeepsEveryBit()
    {
        double[] mid = StageRun.Noise(1, 500), side = StageRun.Noise(2, 500);
        var (m, s) = StageRun.Whole(new WidthOverTimeStage(new([new(200, 0)])), mid, side);

        Assert.Equal(mid, m);
        Assert.Equal(side, s);
    }

    [Fact]
    public void TheStage_KeepsItsBits() => StageRun.KeepsItsBits(Make);

    [Fact]
    public void TheStage_LeavesTheMonoAlone() => StageRun.LeavesTheMonoAlone(Make);

    [Fact]
    public void TheStage_StaysFinite() => StageRun.StaysFinite(Make);

    [Fact]
    public void TheTrace_HasTheLowestGainOfEachColumn()
    {
        var stage = new WidthOverTimeStage(new([new(0, 0), new(4000, -12)])) { Trace = new(0, 4000, 40) };
        StageRun.Whole(stage, new double[4000], new double[4000]);
        var lowest = stage.Trace.Lowest;
        for (var column = 0; column < 40; column++)
            Assert.Equal(-12.0 * (column + 1) / 40, StageRun.Level(lowest[column]), 0.06);
    }

    [Fact]
    public void PointsOutOfOrderOrRange_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => new WidthOverTime([]));
        Assert.Throws<ArgumentException>(() => new WidthOverTime([new(5, 0), new(5, 1)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new WidthOverTime([new(5, 41)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new WidthOverTime([new(5, double.NaN)]));
    }

    private static WidthOverTimeStage Make() => new(new([new(1500, -3), new(2001, 6), new(2010, double.NegativeInfinity), new(5000, 0)]));

    private static double[] Gains(WidthOverTime settings, int frames)
    {
        var ones = new double[frames];
        Array.Fill(ones, 1);
        return StageRun.Whole(new WidthOverTimeStage(settings), new double[frames], ones, 0, 333).Side;
    }
}
