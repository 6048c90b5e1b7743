using Athwart.Microphones.Equipment;
using Athwart.Microphones.Power;
using Athwart.Microphones.Tests.Levels;
using CsCheck;

namespace Athwart.Microphones.Tests.Power;

/// <summary>Elementary arithmetic, worked by hand.</summary>
public static class PowerTests
{
    private static Microphone Drawing(double? milliamperes) => new() { Name = "one", Settings = [Demo.Mid], PhantomMilliamperes = milliamperes };

    private static PowerPlan Plan(double? mid = 4, double? side = 6, Recorder? recorder = null)
        => PowerPlan.For(recorder ?? Demo.Recorder, Drawing(mid), Drawing(side), new(48_000, 24));

    // 48 000·3·2 = 288 000 bytes a second; 10⁹/288 000/3600 = 0.96451 h; 2·2³⁰/288 000 = 7456.54 s.
    [Fact]
    public static void FortyEightKilohertz24BitsStereo_Is0Point9645HoursAGigabyte()
    {
        Assert.Equal(288_000, StorageTime.BytesPerSecond(48_000, 24, 2));
        Assert.Equal(0.96451, StorageTime.HoursPerGigabyte(48_000, 24, 2), 0.000005);
        Assert.Equal(30.86, StorageTime.Hours(32, 48_000, 24, 2), 0.005);
        Assert.Equal(7456.54, StorageTime.SplitSeconds(2, 48_000, 24, 2)!.Value, 0.005);
        Assert.Null(StorageTime.SplitSeconds(0, 48_000, 24, 2));
    }

    // 192 000·4·2 = 1 536 000 bytes a second; 4·2³⁰/1 536 000 = 2796.20 s.
    [Fact]
    public static void HighRateFloat_FillsFourGibibytesIn46Minutes()
        => Assert.Equal(2796.20, StorageTime.SplitSeconds(4, 192_000, 32, 2)!.Value, 0.005);

    [Theory]
    [InlineData(0, 10)]
    [InlineData(20, 5)]
    [InlineData(10, 6.6667)] // half the current: 1/h = 0.1 + 0.5·(0.2 − 0.1) = 0.15
    public static void BatteryHours_FollowThePower(double milliamperes, double hours)
        => Assert.Equal(hours, BatteryTime.Hours(10, 5, milliamperes, 20), 0.00005);

    [Fact]
    public static void Plan_SaysWhatSufficesAndHowLong()
    {
        var plan = Plan();
        Assert.Equal(10, plan.PhantomDrawnMilliamperes);
        Assert.True(plan.PhantomSuffices);
        Assert.True(plan.RateSuffices);
        Assert.Equal(6.6667, plan.BatteryHours!.Value, 0.00005);
        Assert.Equal(30.86, plan.StorageHours!.Value, 0.005);
        Assert.Equal(plan.SecondsToTwoGibibytes, plan.SplitSeconds);
        Assert.Equal(2 * plan.SecondsToTwoGibibytes, plan.SecondsToFourGibibytes);
        Assert.Empty(plan.Reasons);
    }

    [Fact]
    public static void PhantomThatDoesNotSuffice_IsSaidWithBothFigures()
    {
        var plan = Plan(15, 6);
        Assert.False(plan.PhantomSuffices);
        Assert.Null(plan.BatteryHours);
        Assert.Contains("gives 20 mA of phantom current, the microphones draw 21 mA", Assert.Single(plan.Reasons), StringComparison.Ordinal);
    }

    [Fact]
    public static void ExactlyWhatIsThere_Suffices()
    {
        Assert.True(Plan(14, 6).PhantomSuffices);
        Assert.Equal(5, Plan(14, 6).BatteryHours!.Value, 9);
        Assert.True(PowerPlan.For(Demo.Recorder, Drawing(4), Drawing(6), new(96_000, 24)).RateSuffices);
        Assert.False(PowerPlan.For(Demo.Recorder, Drawing(4), Drawing(6), new(192_000, 24)).RateSuffices);
    }

    [Fact]
    public static void NoPhantomDrawn_SufficesEverywhere()
    {
        var plan = Plan(0, 0, Demo.Recorder with { PhantomMilliamperes = null, BatteryHoursWithPhantom = null });
        Assert.True(plan.PhantomSuffices);
        Assert.Equal(10, plan.BatteryHours);
        Assert.Empty(plan.Reasons);
    }

    [Fact]
    public static void UnknownFigures_AreReasons()
    {
        var plan = Plan(null, 6, new() { Name = "unknown" });
        Assert.Null(plan.PhantomSuffices);
        Assert.Null(plan.BatteryHours);
        Assert.Null(plan.StorageHours);
        Assert.Null(plan.SplitSeconds);
        Assert.Null(plan.RateSuffices);
        Assert.Equal(5, plan.Reasons.Count);
    }

    [Fact]
    public static void MoreCurrent_NeverLastsLonger()
        => Gen.Select(Gen.Double[5, 30], Gen.Double[1, 5], Gen.Double[0, 20], Gen.Double[0, 20]).Sample((without, all, one, other)
            => BatteryTime.Hours(without, all, Math.Max(one, other), 20) <= BatteryTime.Hours(without, all, Math.Min(one, other), 20) + 1e-12);

    [Theory]
    [InlineData(0, 24, 2)]
    [InlineData(48_000, 0, 2)]
    [InlineData(48_000, 24, 0)]
    [InlineData(double.NaN, 24, 2)]
    public static void ImpossibleRecordings_AreRefused(double rate, int bits, int channels)
        => Assert.Throws<ArgumentOutOfRangeException>(() => StorageTime.BytesPerSecond(rate, bits, channels));
}
