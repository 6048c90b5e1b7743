using Athwart.Quantities;
using Athwart.Signals.Shaping;

namespace Athwart.Signals.Tests.Shaping;

public sealed class WindReductionTests
{
    private const int Rate = 48000;
    private const int From = 2 * Rate;
    private const int To = 5 * Rate;

    // An engine that both capsules hear, wind that pushes each by itself, and a tone in the side above the corner.
    [Fact]
    public void WindReduction_OfKnownWind_TakesItDownAndKeepsTheEngine()
    {
        var (engine, windMid, windSide) = (Rumble(1, 7 * Rate), Rumble(2, 7 * Rate), Rumble(3, 7 * Rate));
        double[] mid = new double[engine.Length], side = new double[engine.Length], clean = new double[engine.Length];
        for (var n = 0; n < mid.Length; n++)
        {
            var blows = n is >= From and < To;
            clean[n] = (0.5 * engine[n]) + (0.1 * Math.Sin(2 * Math.PI * 1000 * n / Rate));
            mid[n] = engine[n] + (blows ? 0.3 * windMid[n] : 0);
            side[n] = clean[n] + (blows ? 2 * windSide[n] : 0);
        }

        var stage = new WindReductionStage(new([FrameRange.FromFrames(From, To)], 300, 50), Rate);
        var done = StageProof.Run(stage, mid, side);
        StageProof.SameBits(mid, done.Mid);
        var fade = Rate / 20;
        StageProof.SameBits(side.AsSpan(0, From - fade), done.Side.AsSpan(0, From - fade));
        StageProof.SameBits(side.AsSpan(To + fade), done.Side.AsSpan(To + fade));
        var (before, after) = (Below300(side, clean), Below300(done.Side, clean));
        TestContext.Current.TestOutputHelper?.WriteLine($"wind over engine: {before:F1} dB before, {after:F1} dB after");
        Assert.True(before - after > 14, $"wind went from {before} to {after} dB of the engine");
        Assert.Equal(1, Spectrum.Ratio(done.Side.AsSpan(From, To - From), 1000, Rate) / Spectrum.Ratio(clean.AsSpan(From, To - From), 1000, Rate), 0.01);
    }

    [Fact]
    public void WindReduction_WithoutWind_ChangesTheEngineByLittle()
    {
        var engine = Rumble(1, 6 * Rate);
        var side = engine.Select(x => -0.4 * x).ToArray();
        var done = StageProof.Run(new WindReductionStage(new([FrameRange.FromFrames(From, 4 * Rate)], 200, 50), Rate), engine, side);
        for (var n = 0; n < side.Length; n++)
            Assert.Equal(side[n], done.Side[n], 1e-9);
    }

    [Fact]
    public void WindReduction_HoweverCutIntoBlocks_IsTheSame()
    {
        WindReduction settings = new([FrameRange.FromFrames(1000, 1500), FrameRange.FromFrames(4000, 4400)], 120, 5);
        StageProof.SplitsDoNotMatter(() => new WindReductionStage(settings, 8000), 6000);
        StageProof.BeginForgets(new WindReductionStage(settings, 8000), 6000);
        StageProof.SettlingIsEnough(() => new WindReductionStage(new([FrameRange.FromFrames(29_000, 40_000)], 120, 5), 8000), 28_500);
    }

    [Fact]
    public void Settings_ThatCannotBe_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => new WindReduction([], 100, 10));
        Assert.Throws<ArgumentException>(() => new WindReduction([FrameRange.FromFrames(4, 4)], 100, 10));
        Assert.Throws<ArgumentOutOfRangeException>(() => new WindReduction([FrameRange.FromFrames(4, 5)], 30, 10));
        Assert.Throws<ArgumentOutOfRangeException>(() => new WindReduction([FrameRange.FromFrames(4, 5)], 100, 0));
    }

    // What differs from the clean signal over the clean one, while the wind blows, in dB.
    private static double Below300(double[] side, double[] clean)
    {
        var (wrong, right) = (0.0, 0.0);
        for (var n = From + 4800; n < To - 4800; n++)
        {
            wrong += Math.Pow(side[n] - clean[n], 2);
            right += clean[n] * clean[n];
        }

        return 10 * Math.Log10(wrong / right);
    }

    private static double[] Rumble(int seed, int length)
    {
        var random = new Random(seed);
        var sound = new double[length];
        // Two poles at 60 Hz: nearly all of it lies below the corner.
        for (var n = 2; n < length; n++)
            sound[n] = (1.9844 * sound[n - 1]) - (0.98446 * sound[n - 2]) + (0.001 * ((2 * random.NextDouble()) - 1));
        return sound;
    }
}
