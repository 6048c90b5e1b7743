using System.Globalization;
using Athwart.Signals.Shaping;
using Athwart.Signals.Shaping.Control;
using CsCheck;

namespace Athwart.Signals.Tests.Shaping.Dynamics;

public sealed class WidthFollowsTests
{
    private const int Rate = 48_000;

    [Theory]
    [InlineData(100), InlineData(440), InlineData(1000), InlineData(5000), InlineData(15_000)]
    public void ASine_IsMeasuredAtItsFrequencyAndLevel(double hertz)
    {
        var tone = StageRun.Sine(hertz, Rate, Rate, 0.5);
        double brightness = Last(FollowedQuantity.Brightness, tone), pitch = Last(FollowedQuantity.Pitch, tone), level = Last(FollowedQuantity.Level, tone);
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{hertz} Hz: brightness {brightness:0.0} Hz, pitch {pitch:0.0} Hz, level {level:0.00} dBFS"));
        Assert.InRange(brightness / hertz, 0.9, 1.1);
        // 16 cells hold 32 ms: one crossing more or less is 31 Hz.
        Assert.InRange(pitch, hertz - 32, hertz + 32);
        if (hertz >= 1000)
            Assert.Equal(-9.03, level, 0.01);
    }

    [Theory]
    [InlineData(-40, -12.0)]
    [InlineData(-30, -6.0)]
    [InlineData(-20, 0.0)]
    [InlineData(-3.01, 0.0)]
    public void TheSide_FollowsTheLevelOfTheMidInAStraightLine(double level, double expected)
    {
        var settings = new WidthFollows(FollowedQuantity.Level, -40, -20, -12, 0);
        var mid = StageRun.Sine(1000, Rate, 3 * Rate, Math.Pow(10, level / 20) * Math.Sqrt(2));
        Assert.Equal(expected, SideGain(settings, mid), 0.05);
    }

    [Theory]
    [InlineData(FollowedQuantity.Brightness, 500, 0.0)]
    [InlineData(FollowedQuantity.Brightness, 2000, -6.0)]
    [InlineData(FollowedQuantity.Brightness, 8000, -12.0)]
    [InlineData(FollowedQuantity.Pitch, 2000, -6.0)]
    public void TheSide_FollowsHertzByOctaves(FollowedQuantity quantity, double hertz, double expected)
        => Assert.Equal(expected, SideGain(new(quantity, 500, 8000, 0, -12), StageRun.Sine(hertz, Rate, 3 * Rate)), 0.2);

    [Fact]
    public void AStepInLevel_IsFollowedWithTheStatedTimes()
    {
        var settings = new WidthFollows(FollowedQuantity.Level, -60, -10, -20, 0, 0.05, 0.5);
        var mid = StageRun.Sine(1000, Rate, 6 * Rate).Select((v, n) => n is >= 2 * Rate and < 4 * Rate ? v : v * 1e-4).ToArray();
        var gains = Gains(settings, mid);
        // After one time constant 1 − 1/e of the way.
        double risen = 20 + StageRun.Level(gains[(2 * Rate) + (Rate / 20)]), fallen = 20 + StageRun.Level(gains[(4 * Rate) + (Rate / 2)]);
        Assert.InRange(risen / 20, 0.58, 0.68);
        Assert.InRange(fallen / 20, 0.34, 0.40);
    }

    [Theory]
    [InlineData(FollowedQuantity.Level)]
    [InlineData(FollowedQuantity.Brightness)]
    [InlineData(FollowedQuantity.Pitch)]
    public void InSilence_TheGainFallsToTheLowEnd(FollowedQuantity quantity)
    {
        var mid = StageRun.Sine(3000, Rate, 3 * Rate).Select((v, n) => n < Rate ? v : 0).ToArray();
        var settings = quantity == FollowedQuantity.Level ? new WidthFollows(quantity, -60, -20, -10, 5) : new WidthFollows(quantity, 100, 1000, -10, 5);
        var gains = Gains(settings, mid);
        Assert.Equal(5, StageRun.Level(gains[Rate - 500]), 0.05);
        Assert.Equal(-10, StageRun.Level(gains[^500]), 0.1);
    }

    [Fact]
    public void AnyNoise_MovesTheGainWithoutAStep()
        => Gen.Int.Sample(seed =>
        {
            var mid = StageRun.Noise(seed, 20_000).Select((v, n) => n / 3000 % 2 == 0 ? v : v * 0.001).ToArray();
            var gains = Gains(new(FollowedQuantity.Level, -60, -10, -20, 0, 0.01, 0.1), mid);
            for (var n = 1; n < gains.Length; n++)
                Assert.True(Math.Abs(gains[n] - gains[n - 1]) < 0.003);
        }, iter: 5);

    [Fact]
    public void TheStage_KeepsItsBits()
    {
        foreach (var quantity in Enum.GetValues<FollowedQuantity>())
            StageRun.KeepsItsBits(() => Make(quantity, 8000), 9000, 4, 2e-7);
    }

    [Fact]
    public void TheStage_LeavesTheMonoAloneAndStaysFinite()
    {
        foreach (var quantity in Enum.GetValues<FollowedQuantity>())
        {
            StageRun.LeavesTheMonoAlone(() => Make(quantity, Rate));
            StageRun.StaysFinite(() => Make(quantity, Rate));
        }
    }

    [Fact]
    public void SettingsOutOfRange_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new WidthFollows(FollowedQuantity.Level, -130, -10, 0, 0));
        Assert.Throws<ArgumentException>(() => new WidthFollows(FollowedQuantity.Level, -10, -20, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new WidthFollows(FollowedQuantity.Pitch, 10, 100, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new WidthFollows(FollowedQuantity.Level, -50, -10, 0, 0, 0));
    }

    private static WidthFollowsStage Make(FollowedQuantity quantity, int rate) => quantity == FollowedQuantity.Level
        ? new(new(quantity, -60, -10, -20, 6, 0.01, 0.02), rate)
        : new(new(quantity, 200, 3000, -20, 6, 0.01, 0.02), rate);

    private static double Last(FollowedQuantity quantity, double[] samples)
    {
        const int Cell = Rate / 500;
        var measure = new CellMeasure(quantity, Rate, Cell);
        double? value = null;
        for (var n = 0; n + Cell <= samples.Length; n += Cell)
        {
            measure.Add(samples.AsSpan(n, Cell));
            value = measure.Complete();
        }

        return value!.Value;
    }

    private static double SideGain(WidthFollows settings, double[] mid) => StageRun.Level(Gains(settings, mid)[^Rate]);

    private static double[] Gains(WidthFollows settings, double[] mid)
    {
        var ones = new double[mid.Length];
        Array.Fill(ones, 1);
        return StageRun.Whole(new WidthFollowsStage(settings, Rate), mid, ones).Side;
    }
}
