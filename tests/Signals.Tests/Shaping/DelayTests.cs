using Athwart.Signals.Convolution;
using Athwart.Signals.Shaping;

namespace Athwart.Signals.Tests.Shaping;

// The limits (0.01 dB to 0.9 of half the rate, 0.01 frame) are the project's own; the judge is the transform of the impulse response.
public sealed class DelayTests
{
    private const int Rate = 48000;

    [Theory]
    [InlineData(0.5), InlineData(0.01), InlineData(-0.25), InlineData(7.33), InlineData(-120.6), InlineData(480.49)]
    public void Delay_OfAPartOfAFrame_IsFlatWithin0_001DecibelsAndRightTo0_001Frames(double frames)
    {
        var stage = new DelayStage(new(PairRoles.Side, 1000 * frames / Rate), Rate);
        // Early enough that an earlier role still has room before it.
        double[] mid = new double[2000], side = new double[2000];
        mid[600] = side[600] = 1;
        var done = StageProof.Run(stage, mid, side);
        Assert.Equal(1, done.Mid[600]);
        for (var hertz = 50.0; hertz <= 0.9 * Rate / 2; hertz += 531)
        {
            var ratio = Spectrum.At(done.Side, hertz, Rate) / Spectrum.At(done.Mid, hertz, Rate);
            Assert.Equal(0, 20 * Math.Log10(ratio.Magnitude), 0.001);
            var expected = -2 * Math.PI * hertz * frames / Rate;
            var late = Math.IEEERemainder(expected - ratio.Phase, 2 * Math.PI) / (2 * Math.PI * hertz) * Rate;
            Assert.Equal(0, late, 0.001);
        }
    }

    [Theory]
    [InlineData(3), InlineData(-5), InlineData(0), InlineData(4000)]
    public void Delay_ByWholeFrames_KeepsEveryBit(int frames)
    {
        var (mid, side) = StageProof.Noise(9000, 2);
        var stage = new DelayStage(new(PairRoles.Side, 1000.0 * frames / Rate), Rate);
        var done = StageProof.Run(stage, mid, side);
        StageProof.SameBits(mid, done.Mid);
        for (var n = 0; n < mid.Length; n++)
            Assert.Equal(n - frames >= 0 && n - frames < mid.Length ? side[n - frames] : 0, done.Side[n]);
        Assert.Equal(Math.Max(0, -frames), stage.LatencyFrames);
    }

    // Band-limited truth: a sine knows its value everywhere.
    [Fact]
    public void Delay_OfASine_GivesTheSineOfThatTime()
    {
        const double Frames = 10.37;
        double[] mid = new double[3000], side = new double[3000];
        for (var n = 0; n < side.Length; n++)
            side[n] = Math.Sin(2 * Math.PI * 0.37 * n);
        var done = StageProof.Run(new DelayStage(new(PairRoles.Side, 1000 * Frames / Rate), Rate), mid, side);
        for (var n = 200; n < 2900; n++)
            Assert.Equal(Math.Sin(2 * Math.PI * 0.37 * (n - Frames)), done.Side[n], 1e-4);
    }

    [Theory]
    [InlineData(0.0131), InlineData(-0.5), InlineData(30)]
    public void Delay_HoweverCutIntoBlocks_IsTheSame(double milliseconds)
    {
        StageProof.SplitsDoNotMatter(() => new DelayStage(new(PairRoles.Side, milliseconds), Rate));
        StageProof.SplitsDoNotMatter(() => new DelayStage(new(PairRoles.Both, milliseconds), Rate));
        StageProof.LeavesTheOtherRole(new DelayStage(new(PairRoles.Side, milliseconds), Rate), PairRoles.Side);
        StageProof.BeginForgets(new DelayStage(new(PairRoles.Mid, milliseconds), Rate));
        StageProof.SettlingIsEnough(() => new DelayStage(new(PairRoles.Mid, milliseconds), Rate), 5000);
    }

    [Fact]
    public void ShortFilter_WithAndWithoutVectors_GivesTheSameBits()
    {
        var (taps, signal) = StageProof.Noise(700, 9);
        var plain = (double[])signal.Clone();
        new ShortFilter(taps.AsSpan(0, 37)).Process(signal);
        new ShortFilter(taps.AsSpan(0, 37)) { UseVectors = false }.Process(plain);
        StageProof.SameBits(plain, signal);
    }

    [Theory]
    [InlineData(2001), InlineData(double.NaN)]
    public void Delay_OutOfRange_IsRefused(double milliseconds) => Assert.Throws<ArgumentOutOfRangeException>(() => new Delay(PairRoles.Mid, milliseconds));
}
