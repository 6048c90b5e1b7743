using System.Globalization;
using Athwart.Signals.Shaping;

namespace Athwart.Signals.Tests.Shaping.Dynamics;

public sealed class MadeUpSideTests
{
    private const int Rate = 48_000;

    [Theory]
    [InlineData(MadeUpMethod.AllPass)]
    [InlineData(MadeUpMethod.VelvetNoise)]
    public void NoiseInTheMid_GivesASideOfTheStatedLevelThatIsUnlikeIt(MadeUpMethod method)
    {
        var mid = StageRun.Noise(5, 4 * Rate);
        var (m, side) = StageRun.Whole(new MadeUpSideStage(new(method, -6), Rate), mid, new double[mid.Length]);
        Assert.Equal(mid, m);
        var settled = (Rate / 2)..;
        var level = StageRun.Level(StageRun.Rms(side.AsSpan(settled)) / StageRun.Rms(mid.AsSpan(settled)));
        double highest = 0;
        for (var lag = -20; lag <= 20; lag++)
            highest = Math.Max(highest, Math.Abs(Correlation(mid, side, lag)));
        double left = 0, right = 0, both = 0;
        for (var n = Rate / 2; n < mid.Length; n++)
        {
            double l = mid[n] + side[n], r = mid[n] - side[n];
            (left, right, both) = (left + (l * l), right + (r * r), both + (l * r));
        }

        var decoded = both / Math.Sqrt(left * right);
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{method}: level {level:0.00} dB against the mid, likeness to the mid within 0.4 ms at most {highest:0.000}, left and right correlate by {decoded:0.000}"));
        Assert.Equal(-6, level, 0.15);
        Assert.True(highest < 0.1, $"{highest}");
        // Printed identity: side to mid of −6 dB is a correlation of +0.599.
        Assert.Equal(0.599, decoded, 0.03);
    }

    // A chain of all-pass filters: every frequency as loud as in the mid, but for the low end that is taken away.
    [Theory]
    [InlineData(500), InlineData(1000), InlineData(3170), InlineData(9999), InlineData(20_000)]
    public void AllPass_HasEveryFrequencyAtTheStatedLevel(int hertz)
        => Assert.Equal(-6 - (10 * Math.Log10(1 + Math.Pow(120.0 / hertz, 4))), Response(new(MadeUpMethod.AllPass, -6), hertz), 0.02);

    // Butterworth: −3.01 dB at the corner, 12 dB for each octave below.
    [Theory]
    [InlineData(120, -3.01), InlineData(60, -12.3), InlineData(30, -24.1)]
    public void BelowTheLowestFrequency_TheSideFallsBy12DecibelsAnOctave(int hertz, double expected)
        => Assert.Equal(expected, Response(new(MadeUpMethod.AllPass, 0), hertz), 0.05);

    [Fact]
    public void VelvetNoise_IsFlatWithinAFewDecibelsOnAverageOverThirdsOfOctaves()
    {
        var settings = new MadeUpSide(MadeUpMethod.VelvetNoise, 0);
        var levels = new List<double>();
        for (var band = 500.0; band < 16_000; band *= Math.Pow(2, 1.0 / 3))
            levels.Add(10 * Math.Log10(Enumerable.Range(0, 8).Average(n => Math.Pow(10, Response(settings, band * Math.Pow(2, n / 24.0)) / 10))));
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"thirds of octaves from {levels.Min():0.0} to {levels.Max():0.0} dB"));
        Assert.All(levels, level => Assert.InRange(level, -6, 6));
    }

    [Fact]
    public void AnotherSeed_MakesAnotherSide()
    {
        var mid = StageRun.Noise(6, Rate);
        foreach (var method in new[] { MadeUpMethod.AllPass, MadeUpMethod.VelvetNoise })
        {
            var one = StageRun.Whole(new MadeUpSideStage(new(method, seed: 1), Rate), mid, new double[Rate]).Side;
            var two = StageRun.Whole(new MadeUpSideStage(new(method, seed: 2), Rate), mid, new double[Rate]).Side;
            Assert.True(Math.Abs(Correlation(one, two, 0)) < 0.3);
        }
    }

    [Fact]
    public void ASideThatIsThere_StaysOnlyWhenAsked()
    {
        double[] mid = StageRun.Noise(7, 3000), side = StageRun.Noise(8, 3000);
        var alone = StageRun.Whole(new MadeUpSideStage(new(MadeUpMethod.AllPass), Rate), mid, side).Side;
        var added = StageRun.Whole(new MadeUpSideStage(new(MadeUpMethod.AllPass, keepsSide: true), Rate), mid, side).Side;
        for (var n = 0; n < side.Length; n++)
            Assert.Equal(side[n] + alone[n], added[n], 1e-15);
    }

    [Fact]
    public void AMadeUpSide_AlwaysSaysSo()
    {
        Assert.True(new MadeUpSide(MadeUpMethod.AllPass).IsMadeUp);
        Assert.Contains("made up", MadeUpSide.Label, StringComparison.Ordinal);
    }

    [Fact]
    public void TheStages_KeepTheirBits()
    {
        StageRun.KeepsItsBits(() => new MadeUpSideStage(new(MadeUpMethod.AllPass, spreadSeconds: 0.005), Rate), 40_000, 3, 1e-7);
        StageRun.KeepsItsBits(() => new MadeUpSideStage(new(MadeUpMethod.VelvetNoise), Rate), 9000, 5, 1e-7);
    }

    [Fact]
    public void TheStages_LeaveTheMonoAloneAndStayFinite()
    {
        foreach (var method in new[] { MadeUpMethod.AllPass, MadeUpMethod.VelvetNoise })
        {
            StageRun.LeavesTheMonoAlone(() => new MadeUpSideStage(new(method), Rate));
            StageRun.StaysFinite(() => new MadeUpSideStage(new(method), Rate));
        }
    }

    [Fact]
    public void SettingsOutOfRange_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new MadeUpSide((MadeUpMethod)9));
        Assert.Throws<ArgumentOutOfRangeException>(() => new MadeUpSide(MadeUpMethod.AllPass, 13));
        Assert.Throws<ArgumentOutOfRangeException>(() => new MadeUpSide(MadeUpMethod.AllPass, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new MadeUpSide(MadeUpMethod.AllPass, lowestHertz: 2000));
        Assert.Throws<ArgumentOutOfRangeException>(() => new MadeUpSide(MadeUpMethod.AllPass, seed: -1));
    }

    private static double Response(MadeUpSide settings, double hertz)
    {
        const int Frames = 2 * Rate;
        var mid = StageRun.Sine(hertz, Rate, Frames);
        var side = StageRun.Whole(new MadeUpSideStage(settings, Rate), mid, new double[Frames]).Side;
        double s = 0, c = 0;
        for (var n = Rate; n < Frames; n++)
        {
            // A whole number of waves of every whole frequency; a Hann window for the others.
            var weight = 1 - Math.Cos(2 * Math.PI * (n - Rate) / Rate);
            s += weight * side[n] * Math.Sin(2 * Math.PI * hertz * n / Rate);
            c += weight * side[n] * Math.Cos(2 * Math.PI * hertz * n / Rate);
        }

        return StageRun.Level(Math.Sqrt((s * s) + (c * c)) * 2 / Rate / 0.5);
    }

    private static double Correlation(double[] a, double[] b, int lag)
    {
        double ab = 0, aa = 0, bb = 0;
        for (var n = Math.Max(0, -lag); n < Math.Min(a.Length, b.Length - lag); n++)
            (ab, aa, bb) = (ab + (a[n] * b[n + lag]), aa + (a[n] * a[n]), bb + (b[n + lag] * b[n + lag]));
        return ab / Math.Sqrt(aa * bb);
    }
}
