using Athwart.Signals.Shaping;

namespace Athwart.Signals.Tests.Shaping;

public sealed class HumCutTests
{
    private const int Rate = 48000;

    [Fact]
    public void HumCut_Measured_CutsEachMultipleByItsDepthAndWidth()
    {
        var stage = new HumCutStage(new(PairRoles.Side, [new(0, 60)], [1, 3, 7], 8, 40), Rate);
        var (length, mid) = (200_000, StageProof.Gains(stage, 60, Rate, 200_000).Mid);
        Assert.Equal(1, mid, 1e-12);
        foreach (var hertz in new[] { 60.0, 180, 420 })
        {
            Assert.Equal(-40, 20 * Math.Log10(StageProof.Gains(stage, hertz, Rate, length).Side), 0.1);
            // f₂ − f₁ = 8 Hz with f₁·f₂ = f₀² for a narrow band.
            Assert.Equal(-3.01, 20 * Math.Log10(StageProof.Gains(stage, Math.Sqrt((hertz * hertz) + 16) + 4, Rate, length).Side), 0.15);
        }

        Assert.Equal(0, 20 * Math.Log10(StageProof.Gains(stage, 120, Rate, length).Side), 0.1);
        Assert.Equal(0, 20 * Math.Log10(StageProof.Gains(stage, 5000, Rate, length).Side), 0.001);
    }

    // Hum at 50 Hz drifting by 0.4 Hz over 20 s, five multiples, beside a tone that has to stay.
    [Fact]
    public void HumCut_OfDriftingHum_TakesItOutBy40DecibelsWhereAFixedOneDoesNot()
    {
        const int Length = 20 * Rate;
        double Hertz(int n) => 49.8 + (0.4 * n / Length);
        double[] hum = new double[Length], tone = new double[Length];
        var phase = 0.0;
        for (var n = 0; n < Length; n++)
        {
            phase += 2 * Math.PI * Hertz(n) / Rate;
            for (var h = 1; h <= 5; h++)
                hum[n] += Math.Sin(h * phase) / h;
            tone[n] = Math.Sin(2 * Math.PI * 777 * n / Rate);
        }

        var drifting = new HumCut(PairRoles.Both, [new(0, 49.8), new(Length, 50.2)], [1, 2, 3, 4, 5], 1, double.PositiveInfinity);
        var done = StageProof.Run(new HumCutStage(drifting, Rate), hum, tone);
        var left = 20 * Math.Log10(Rms(done.Mid, 5 * Rate) / Rms(hum, 5 * Rate));
        Assert.InRange(left, -200, -40);
        Assert.Equal(Rms(tone, 5 * Rate), Rms(done.Side, 5 * Rate), 1e-4);
        var standing = StageProof.Run(new HumCutStage(new(PairRoles.Both, [new(0, 50)], [1, 2, 3, 4, 5], 1, double.PositiveInfinity), Rate), hum, tone);
        Assert.True(20 * Math.Log10(Rms(standing.Mid, 5 * Rate) / Rms(hum, 5 * Rate)) > left + 20);
    }

    [Fact]
    public void HertzAt_BetweenPoints_IsOnTheLineAndLevelBeyond()
    {
        var settings = new HumCut(PairRoles.Mid, [new(100, 50), new(200, 51), new(400, 49)], [1], 1, 60);
        Assert.Equal([50, 50, 50.5, 51, 50, 49, 49], new double[] { -5, 100, 150, 200, 300, 400, 1000 }.Select(settings.HertzAt));
    }

    [Fact]
    public void HumCut_HoweverCutIntoBlocks_IsTheSameAndSettles()
    {
        HumCutStage Make(PairRoles roles) => new(new(roles, [new(0, 50), new(3000, 50.5)], [1, 2, 3, 500 / 50], 20, 60), Rate);
        StageProof.SplitsDoNotMatter(() => Make(PairRoles.Both));
        StageProof.SplitsDoNotMatter(() => Make(PairRoles.Side));
        StageProof.LeavesTheOtherRole(Make(PairRoles.Side), PairRoles.Side);
        StageProof.BeginForgets(Make(PairRoles.Mid));
        StageProof.SettlingIsEnough(() => Make(PairRoles.Both), 40_000);
    }

    [Fact]
    public void Settings_ThatCannotBe_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => new HumCut(PairRoles.Mid, [], [1], 1, 60));
        Assert.Contains("rise", Assert.Throws<ArgumentException>(() => new HumCut(PairRoles.Mid, [new(5, 50), new(5, 51)], [1], 1, 60)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new HumCut(PairRoles.Mid, [new(0, 5)], [1], 1, 60));
        Assert.Throws<ArgumentException>(() => new HumCut(PairRoles.Mid, [new(0, 50)], [2, 1], 1, 60));
        Assert.Throws<ArgumentException>(() => new HumCut(PairRoles.Mid, [new(0, 50)], [], 1, 60));
        Assert.Throws<ArgumentOutOfRangeException>(() => new HumCut(PairRoles.Mid, [new(0, 50)], [1], 51, 60));
        Assert.Throws<ArgumentOutOfRangeException>(() => new HumCut(PairRoles.Mid, [new(0, 50)], [1], 1, 0));
    }

    private static double Rms(double[] samples, int from) => Math.Sqrt(samples.Skip(from).Average(x => x * x));
}
