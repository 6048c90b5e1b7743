using Athwart.Microphones.Levels;
using CsCheck;

namespace Athwart.Microphones.Tests.Levels;

public static class GainPlanTests
{
    private static GainPlanRequest Request(double quietest = 45, double loudest = 95) => new()
    {
        Mid = Demo.Mid,
        Side = Demo.Side,
        Recorder = Demo.Recorder,
        QuietestDecibels = quietest,
        Loudest = LoudestSound.FromLevel(loudest),
    };

    // Worked by hand: 95 dB RMS peaks at 107 as a sine of 103.99 does; at 20 mV/Pa that is -21.75 dBu, 31.75 dB under +10 dBu; 6 are kept; 10 is the lowest gain.
    [Fact]
    public static void NinetyFiveDecibels_PutTheMidAt35AndTheSideAt39()
    {
        var plan = GainPlan.For(Request());
        Assert.Equal(35.75, plan.Mid.LimitDecibels!.Value, 0.005);
        Assert.Equal(35, plan.Mid.GainDecibels);
        Assert.Equal(39.83, plan.Side.LimitDecibels!.Value, 0.005);
        Assert.Equal(39, plan.Side.GainDecibels);
        Assert.Equal(4.08, plan.MatchDecibels!.Value, 0.005);
        Assert.Equal(0.08, plan.TrimDecibels!.Value, 0.005);
        Assert.Equal(-6.75, plan.Mid.LoudestDecibelsFullScale!.Value, 0.005);
        Assert.Equal(6.75, plan.Mid.InputMarginDecibels!.Value, 0.005);
        Assert.Equal(31.75, plan.Mid.InputMarginAtLowestGainDecibels!.Value, 0.005);
        Assert.Equal(26.01, plan.Mid.MicrophoneMarginDecibels!.Value, 0.005);
        Assert.Equal(45 - 103.99 - 6.75, plan.Mid.QuietestDecibelsFullScale!.Value, 0.006);
        Assert.Empty(plan.Messages);
        Assert.Empty(plan.Reasons);
    }

    [Fact]
    public static void SharedGain_IsTheLowerOne_AndLeavesTheWholeMatchToTheDecode()
    {
        var shared = GainPlan.For(Request()).Shared!;
        Assert.Equal(35, shared.GainDecibels);
        Assert.Equal(4.08, shared.TrimDecibels, 0.005);
        Assert.Equal(0, shared.MidUnusedDecibels);
        Assert.Equal(4, shared.SideUnusedDecibels);
    }

    [Fact]
    public static void Ladder_HasEveryStep_AndEachDecibelOfGainIsADecibelMore()
    {
        var ladder = GainLadder.For(Demo.Mid, Demo.Recorder, 45, LoudestSound.FromLevel(95));
        Assert.Equal(61, ladder.Count);
        Assert.Equal((10, 70), (ladder[0].GainDecibels, ladder[^1].GainDecibels));
        Assert.All(ladder.Zip(ladder.Skip(1)), pair =>
        {
            Assert.Equal(1, pair.Second.LoudestDecibelsFullScale - pair.First.LoudestDecibelsFullScale, 9);
            Assert.Equal(-1, pair.Second.FullScaleSoundDecibels - pair.First.FullScaleSoundDecibels, 9);
        });
        Assert.Empty(GainLadder.For(Demo.Mid with { SensitivityMillivoltsPerPascal = null }, Demo.Recorder, 45, LoudestSound.FromLevel(95)));
        Assert.Equal(-6.75, ladder[25].LoudestDecibelsFullScale, 0.005);
        Assert.Equal(103.99 + 6.75, ladder[25].FullScaleSoundDecibels, 0.005);
    }

    [Fact]
    public static void FreeControl_IsSetExactlyAtTheLimit_AndLeavesNoTrim()
    {
        var plan = GainPlan.For(Request() with { Recorder = Demo.Recorder with { GainStepDecibels = 0 } });
        Assert.Equal(plan.Mid.LimitDecibels, plan.Mid.GainDecibels);
        Assert.Equal(0, plan.TrimDecibels!.Value, 9);
        Assert.Equal(61, GainLadder.For(Demo.Mid, Demo.Recorder with { GainStepDecibels = 0 }, 45, LoudestSound.FromLevel(95)).Count);
    }

    [Fact]
    public static void TooLoudAtTheLowestGain_AsksForAPadByItsSize()
    {
        var plan = GainPlan.For(Request(loudest: 128));
        var message = Assert.Single(plan.Messages, message => message is { Kind: GainMessageKind.InputOverload, Role: "mid" });
        // 33 dB louder than the worked plan: 31.75 - 33 = -1.25 dB, and 6 dB of headroom.
        Assert.Equal(1.25, message.Decibels, 0.005);
        Assert.Contains("a pad of at least 7.2 dB", message.Text, StringComparison.Ordinal);
        Assert.Equal(10, plan.Mid.GainDecibels);
        Assert.Null(plan.Shared);
        Assert.Contains(plan.Messages, message => message is { Kind: GainMessageKind.MicrophoneOverload, Role: "mid" });
        Assert.Equal(GainMessageKind.MicrophoneOverload, plan.Messages[0].Kind);
    }

    [Fact]
    public static void LowestGainWithLessThanTheHeadroom_SaysByHowMuch()
    {
        var plan = GainPlan.For(Request(loudest: 123));
        var message = Assert.Single(plan.Messages, message => message is { Kind: GainMessageKind.HeadroomShort, Role: "mid" });
        Assert.Equal(6 - 3.75, message.Decibels, 0.005);
    }

    [Fact]
    public static void TooQuiet_SaysSo_ForGainAndForNoise()
    {
        var plan = GainPlan.For(Request(quietest: 10, loudest: 50));
        Assert.Equal(70, plan.Mid.GainDecibels);
        Assert.Contains(plan.Messages, message => message is { Kind: GainMessageKind.GainShort, Role: "mid" });
        Assert.Contains(plan.Messages, message => message is { Kind: GainMessageKind.BelowNoise, Role: "mid" });
        Assert.Contains(GainPlan.For(Request(quietest: 22)).Messages, message => message is { Kind: GainMessageKind.NearNoise, Role: "mid" });
    }

    [Fact]
    public static void UnknownFigures_AreReasons_NotGuesses()
    {
        var plan = GainPlan.For(Request() with
        {
            Side = Demo.Side with { SensitivityMillivoltsPerPascal = null, MaximumLevelDecibels = null },
            Recorder = Demo.Recorder with { EquivalentInputNoiseDecibelsU = null },
        });
        Assert.Equal(35, plan.Mid.GainDecibels);
        Assert.Null(plan.Mid.NoiseDecibelsA);
        Assert.Null(plan.Side.GainDecibels);
        Assert.Null(plan.Side.MicrophoneMarginDecibels);
        Assert.Null(plan.MatchDecibels);
        Assert.Null(plan.TrimDecibels);
        Assert.Null(plan.Shared);
        Assert.Equal(3, plan.Reasons.Count);
    }

    [Theory]
    [InlineData(double.NaN, 6)]
    [InlineData(45, -1)]
    public static void ImpossibleWishes_AreRefused(double quietest, double headroom)
        => Assert.Throws<ArgumentOutOfRangeException>(() => GainPlan.For(Request(quietest) with { HeadroomDecibels = headroom }));

    // 0.3 / 0.1 is a little less than 3 in binary: the limit is the third step all the same.
    [Theory]
    [InlineData(0.3, 0.1, 0.3)]
    [InlineData(0.29, 0.1, 0.2)]
    [InlineData(75, 7, 70)]
    [InlineData(12.5, 0, 12.5)]
    public static void HighestStep_IsTheLastOneThatKeepsTheLimit(double limit, double step, double gain)
        => Assert.Equal(gain, InputLevels.HighestStep(limit, 0, 70, step)!.Value, 9);

    [Fact]
    public static void LimitBelowTheLowestGain_HasNoStep()
        => Assert.Null(InputLevels.HighestStep(-0.1, 0, 70, 1));

    // Definition: a sine's peak is 3.01 dB above its RMS.
    [Fact]
    public static void CrestOfASine_ComparesAsItsOwnLevel()
        => Assert.Equal(94, LoudestSound.FromLevel(94, 10 * Math.Log10(2)).SineDecibels, 12);

    [Fact]
    public static void Gains_StayOnStepsAndUnderTheHeadroom_ForAnyKit()
        => Gen.Select(Gen.Double[1, 60], Gen.Double[1, 60], Gen.Double[60, 125], Gen.Double[0, 20], Gen.OneOf(Gen.Const(0.0), Gen.Const(0.5), Gen.Const(1.0), Gen.Const(3.0), Gen.Const(6.0)))
            .Sample((mid, side, loudest, headroom, step) => Holds(Request() with
            {
                Mid = Demo.Mid with { SensitivityMillivoltsPerPascal = mid },
                Side = Demo.Side with { SensitivityMillivoltsPerPascal = side },
                Recorder = Demo.Recorder with { GainStepDecibels = step },
                Loudest = LoudestSound.FromLevel(loudest),
                HeadroomDecibels = headroom,
            }));

    private static bool Holds(GainPlanRequest request)
    {
        var plan = GainPlan.For(request);
        var recorder = request.Recorder;
        var inRange = true;
        foreach (var channel in new[] { plan.Mid, plan.Side })
        {
            var gain = channel.GainDecibels!.Value;
            var (lowest, highest, step) = (recorder.MinimumGainDecibels!.Value, recorder.MaximumGainDecibels!.Value, recorder.GainStepDecibels!.Value);
            Assert.InRange(gain, lowest, highest);
            if (step > 0)
                Assert.Equal(0, Math.IEEERemainder(gain - lowest, step), 9);
            if (channel.LimitDecibels >= lowest)
                Assert.True(channel.LoudestDecibelsFullScale <= -request.HeadroomDecibels + 1e-6);
            inRange &= channel.LimitDecibels >= lowest && channel.LimitDecibels <= highest;
        }

        // Within the range only the steps are left to the decode.
        Assert.True(!inRange || Math.Abs(plan.TrimDecibels!.Value) <= Math.Max(recorder.GainStepDecibels!.Value, 1e-6));
        return plan.Shared is null || plan.Shared.GainDecibels <= plan.Mid.GainDecibels;
    }
}
