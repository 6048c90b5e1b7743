using System.Globalization;
using Athwart.Signals.Shaping;

namespace Athwart.Signals.Tests.Shaping.Dynamics;

public sealed class TransientBalanceTests
{
    private const int Rate = 48_000;

    // The mid's strikes with the side's room: sustain of the mid down by 12 dB, transients of the side down by 12 dB.
    [Fact]
    public void StrikesWithATail_AreTakenApart()
    {
        var strikes = Strikes();
        var keepsStart = StageRun.Whole(new TransientBalanceStage(new(PairRoles.Mid, 0, -12), Rate), strikes, strikes);
        var keepsTail = StageRun.Whole(new TransientBalanceStage(new(PairRoles.Side, -12, 0), Rate), strikes, strikes);
        Assert.Equal(strikes, keepsStart.Side);
        Assert.Equal(strikes, keepsTail.Mid);
        double start = Change(strikes, keepsStart.Mid, 0, 0.01), late = Change(strikes, keepsStart.Mid, 0.25, 0.4);
        double startOfTail = Change(strikes, keepsTail.Side, 0, 0.01), lateOfTail = Change(strikes, keepsTail.Side, 0.25, 0.4);
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"sustain −12 dB: first 10 ms {start:0.0} dB, after 250 ms {late:0.0} dB; transients −12 dB: first 10 ms {startOfTail:0.0} dB, after 250 ms {lateOfTail:0.0} dB"));
        Assert.InRange(start, -2.5, 0);
        Assert.InRange(late, -12.1, -10);
        Assert.InRange(startOfTail, -12, -7);
        Assert.InRange(lateOfTail, -1, 0.01);
    }

    [Fact]
    public void ASteadyTone_HasTheGainOfTheSustain()
    {
        var tone = StageRun.Sine(1000, Rate, Rate);
        var shaped = StageRun.Whole(new TransientBalanceStage(new(PairRoles.Both, 6, -6), Rate), tone, tone);

        Assert.Equal(-6, Change(tone, shaped.Mid, 0.7, 0.85), 0.5);
        Assert.Equal(shaped.Mid, shaped.Side);
    }

    [Fact]
    public void WithBothGainsAlike_ItIsATrim()
    {
        var noise = StageRun.Noise(1, 5000);
        var shaped = StageRun.Whole(new TransientBalanceStage(new(PairRoles.Both, -3, -3), Rate), noise, noise);
        for (var n = 0; n < noise.Length; n++)
            Assert.Equal(noise[n] * Math.Pow(10, -0.15), shaped.Mid[n], 1e-14);
    }

    [Fact]
    public void TheStage_KeepsItsBits()
        => StageRun.KeepsItsBits(() => new TransientBalanceStage(new(PairRoles.Both, 3, -9, slowSeconds: 0.02), 8000), 9000, 6, 2e-7);

    [Fact]
    public void OnTheSideAlone_ItLeavesTheMonoAloneAndStaysFinite()
    {
        StageRun.LeavesTheMonoAlone(() => new TransientBalanceStage(new(PairRoles.Side, 6, -12), Rate));
        StageRun.StaysFinite(() => new TransientBalanceStage(new(PairRoles.Both, 6, -12), Rate));
    }

    [Fact]
    public void SettingsOutOfRange_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new TransientBalance(PairRoles.None, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TransientBalance(PairRoles.Mid, 21, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TransientBalance(PairRoles.Mid, 0, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TransientBalance(PairRoles.Mid, 0, 0, 0));
    }

    // Noise that starts at once and fades by 60 dB in a second, twice.
    private static double[] Strikes()
    {
        var noise = StageRun.Noise(9, 2 * Rate);
        return [.. noise.Select((v, n) => n < Rate / 10 ? 0 : v * Math.Pow(10, -3.0 * ((n - (Rate / 10)) % Rate) / Rate))];
    }

    private static double Change(double[] before, double[] after, double fromSeconds, double toSeconds)
    {
        Range range = ((Rate / 10) + (int)(fromSeconds * Rate))..((Rate / 10) + (int)(toSeconds * Rate));
        return StageRun.Level(StageRun.Rms(after.AsSpan(range)) / StageRun.Rms(before.AsSpan(range)));
    }
}
