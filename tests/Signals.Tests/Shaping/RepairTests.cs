using Athwart.Quantities;
using Athwart.Signals.Repairs;
using Athwart.Signals.Shaping;

namespace Athwart.Signals.Tests.Shaping;

public sealed class RepairTests
{
    private const int Rate = 48000;

    // Errors on known signals: rms of what is wrong in the gap over rms of the sound, over five places. The figures stand in src/Signals/README.md.
    [Theory]
    [InlineData("tones", 0.2, -150), InlineData("tones", 5, -150), InlineData("tones", 20, -150)]
    [InlineData("ringing", 0.2, -40), InlineData("ringing", 5, -13), InlineData("ringing", 20, -9)]
    [InlineData("rumble", 0.2, -23), InlineData("rumble", 1, -17), InlineData("rumble", 5, -6)]
    public void Repair_OfAKnownSignal_IsWrongByLessThanSaid(string kind, double milliseconds, double errorDecibels)
    {
        var sound = Sound(kind);
        FrameRange[] gaps = [.. Enumerable.Range(0, 5).Select(k => FrameRange.FromFrames(10_000 + (9000 * k), 10_000 + (9000 * k) + (int)(milliseconds * Rate / 1000)))];
        var damaged = (double[])sound.Clone();
        foreach (var gap in gaps)
            damaged.AsSpan((int)gap.From.Value, (int)gap.Length.Value).Fill(0.9);
        var done = StageProof.Run(new RepairStage(new(PairRoles.Side, gaps), Rate, sound.Length), damaged, damaged);
        var wrong = gaps.Average(g => Enumerable.Range((int)g.From.Value, (int)g.Length.Value).Average(n => Math.Pow(done.Side[n] - sound[n], 2)));
        var decibels = 10 * Math.Log10(wrong / sound.Average(x => x * x));
        TestContext.Current.TestOutputHelper?.WriteLine($"{kind}, {milliseconds} ms: {decibels:F1} dB");
        Assert.True(decibels <= errorDecibels, $"{kind}, {milliseconds} ms: {decibels} dB");
        StageProof.SameBits(damaged, done.Mid);
    }

    // The sound is made by a known model; nothing linear does better than filling by that one.
    [Theory]
    [InlineData("ringing", 30), InlineData("ringing", 300), InlineData("rumble", 10), InlineData("rumble", 100)]
    public void Filling_ByTheFittedModel_IsWithinOneDecibelOfTheBestThatCanBe(string kind, int gap)
    {
        var sound = Sound(kind);
        double[] truth = kind == "ringing" ? [1, -1.9853, 0.9991] : [1, -0.999];
        var (fitted, best) = (0.0, 0.0);
        for (var place = 10_000; place < 50_000; place += 1000)
        {
            var context = GapFiller.Context(gap);
            var stretch = sound.AsSpan(place - context, (2 * context) + gap).ToArray();
            GapFiller.FillBy(truth, stretch, context, gap);
            best += Wrong(stretch);
            GapFiller.Fill(stretch, context, gap);
            fitted += Wrong(stretch);
            double Wrong(double[] filled) => Enumerable.Range(0, gap).Sum(n => Math.Pow(filled[context + n] - sound[place + n], 2));
        }

        Assert.InRange(10 * Math.Log10(fitted / best), -0.1, 1);
    }

    [Fact]
    public void Repair_OutsideItsRanges_KeepsEveryBit()
    {
        var (mid, side) = StageProof.Noise(9000, 8);
        FrameRange[] gaps = [FrameRange.FromFrames(3000, 3010), FrameRange.FromFrames(0, 4), FrameRange.FromFrames(3040, 3060), FrameRange.FromFrames(5000, 5100), FrameRange.FromFrames(8990, 9000)];
        var done = StageProof.Run(new RepairStage(new(PairRoles.Both, gaps), Rate, 9000), mid, side);
        for (var n = 0; n < mid.Length; n++)
        {
            // The 30 frames between the two near ones go with them.
            if (!gaps.Any(g => g.From.Value <= n && n < g.To.Value) && n is < 3010 or >= 3040)
                Assert.Equal((mid[n], side[n]), (done.Mid[n], done.Side[n]));
            Assert.InRange(done.Mid[n], -3, 3);
        }
    }

    [Fact]
    public void Repair_OfADropoutInSilence_IsSilence()
    {
        var done = StageProof.Run(new RepairStage(new(PairRoles.Both, [FrameRange.FromFrames(4000, 4100)]), Rate), new double[9000], new double[9000]);
        Assert.All(done.Mid, x => Assert.Equal(0, x));
    }

    [Fact]
    public void Repair_HoweverCutIntoBlocks_IsTheSame()
    {
        Repair settings = new(PairRoles.Side, [FrameRange.FromFrames(2000, 2030), FrameRange.FromFrames(2300, 2303), FrameRange.FromFrames(2500, 2560)]);
        StageProof.SplitsDoNotMatter(() => new RepairStage(settings, Rate), 5000);
        StageProof.LeavesTheOtherRole(new RepairStage(settings, Rate), PairRoles.Side);
        StageProof.BeginForgets(new RepairStage(settings, Rate), 5000);
        StageProof.SettlingIsEnough(() => new RepairStage(new(PairRoles.Both, [FrameRange.FromFrames(21_000, 21_050)]), Rate), 20_100);
    }

    [Fact]
    public void Toeplitz_Solved_GivesTheRightHandSide()
    {
        double[] t = [4, 1.5, -0.7, 0.3];
        double[] y = [1, 2, -3, 4, 0.5, -1, 2, 7], x = new double[8];
        GapFiller.SolveToeplitz(t, y, x);
        for (var i = 0; i < y.Length; i++)
            Assert.Equal(y[i], Enumerable.Range(0, 8).Sum(j => Math.Abs(i - j) < 4 ? t[Math.Abs(i - j)] * x[j] : 0), 1e-12);
    }

    [Fact]
    public void Model_OfASumOfSines_PredictsThem()
    {
        double[] sound = [.. Enumerable.Range(0, 2000).Select(n => Math.Sin(0.1 * n) + (0.3 * Math.Sin(0.9 * n)))];
        var a = AutoregressiveModel.Fit(sound.AsSpan(0, 900), sound.AsSpan(1000), 20);
        for (var n = 1500; n < 1600; n++)
            Assert.Equal(sound[n], -Enumerable.Range(1, 20).Sum(k => a[k] * sound[n - k]), 1e-3);
    }

    [Fact]
    public void Ranges_ThatCannotBe_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => new Repair(PairRoles.Mid, []));
        Assert.Throws<ArgumentException>(() => new Repair(PairRoles.Mid, [FrameRange.FromFrames(5, 5)]));
        Assert.Contains("100 ms", Assert.Throws<ArgumentException>(() => new RepairStage(new(PairRoles.Mid, [FrameRange.FromFrames(5, 4900)]), Rate)).Message, StringComparison.Ordinal);
    }

    private static double[] Sound(string kind)
    {
        var random = new Random(31);
        var sound = new double[60_000];
        double a = 0, b = 0;
        for (var n = 0; n < sound.Length; n++)
        {
            var noise = (2 * random.NextDouble()) - 1;
            sound[n] = kind switch
            {
                "tones" => (0.3 * Math.Sin(2 * Math.PI * 437 * n / Rate)) + (0.2 * Math.Sin(2 * Math.PI * 1311.3 * n / Rate)) + (0.1 * Math.Sin(2 * Math.PI * 5020 * n / Rate)),
                // A bar at 900 Hz struck by noise: its ringing lasts some 40 ms.
                "ringing" => (1.9853 * a) - (0.9991 * b) + (0.002 * noise),
                // Brownian rumble.
                _ => (0.999 * a) + (0.02 * noise),
            };
            (b, a) = (a, sound[n]);
        }

        return sound;
    }
}
