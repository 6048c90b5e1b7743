using Athwart.Metering.LineUp;

namespace Athwart.Metering.Tests.LineUp;

/// <summary>Closed form: side/mid at azimuth a is g·sin a/(A + (1 − A)·cos a); the side's delay is τ − (x·cos a + y·sin a)/c.</summary>
public class LineUpAnalysisTests(ITestOutputHelper output)
{
    public static TheoryData<int, double, double, double> Grid
    {
        get
        {
            var grid = new TheoryData<int, double, double, double>();
            foreach (var rate in (ReadOnlySpan<int>)[44100, 48000, 88200, 96000])
            {
                foreach (var (pattern, gain, delay) in (ReadOnlySpan<(double, double, double)>)[(0.5, 0, 0), (0.5, -12, 5), (0.5, 12, -5), (0.37, -6, 2.5), (0.25, 3, -1.37), (0.7, 7.5, 0.62), (1, -9, -3.1)])
                    grid.Add(rate, pattern, gain, delay);
            }

            return grid;
        }
    }

    [Theory]
    [MemberData(nameof(Grid))]
    public void ARigAtThirtyDecibels_IsMeasuredWithin0_2DecibelsAnd0_05Frames(int rate, double pattern, double gain, double delay)
    {
        // Every combination of roles and polarity at one rate, one at the others.
        var variants = rate == 48000 ? 4 : 1;
        for (var v = 0; v < variants; v++)
        {
            var variant = variants == 1 ? (rate / 100) % 4 ^ (gain > 0 ? 3 : 0) : v;
            var scene = new LineUpScene { Rate = rate, Pattern = pattern, GainDecibels = gain, Delay = delay, Swapped = (variant & 1) != 0, SideInverted = (variant & 2) != 0, Seed = variant + 1 };
            var result = LineUpScene.Measure(scene);
            output.WriteLine($"{result.FirstIsMid.Probability:0.000} {result.SideInverted.Probability:0.000} {result.GainOffset.Value - gain:0.000}±{result.GainOffset.Uncertainty:0.000} {result.Delay.Value - delay:0.0000}±{result.Delay.Uncertainty:0.000} {result.SideAngle.Value:0.0} {result.MeasuredMidPattern.Value:0.00}");
            Assert.True(result.FirstIsMid.IsKnown && result.SideInverted.IsKnown, string.Join("; ", result.Findings.Select(f => f.Message)));
            Assert.Equal(!scene.Swapped, result.FirstIsMid.Answer);
            Assert.Equal(scene.SideInverted, result.SideInverted.Answer);
            Assert.Equal(gain, result.GainOffset.Value, 0.2);
            Assert.Equal(delay, result.Delay.Value, 0.05);
        }
    }

    // Found by reading: a clap was then cut with the long window of the voice, beyond the end of the take.
    [Fact]
    public void AVoiceOnTheLeft_AndAClapAtTheVeryEndOnTheRight_AreMeasured()
    {
        const int Rate = 48000;
        var random = new Random(7);
        float[] mid = [.. Enumerable.Range(0, 14 * Rate).Select(_ => (float)(2e-5 * (random.NextDouble() - 0.5)))];
        var side = mid.Select(_ => (float)(2e-5 * (random.NextDouble() - 0.5))).ToArray();
        void Sound(int at, int frames, double decay, float side0)
        {
            for (var n = 0; n < frames && at + n < mid.Length; n++)
            {
                var x = (float)(0.5 * (random.NextDouble() - 0.5) * Math.Exp(-n / decay));
                (mid[at + n], side[at + n]) = (mid[at + n] + x, side[at + n] + (side0 * x));
            }
        }

        foreach (var second in (double[])[2, 3, 4])
            Sound((int)(second * Rate), Rate / 3, 1e9, 0.9f);
        foreach (var at in (int[])[10 * Rate, 11 * Rate, mid.Length - (Rate / 100)])
            Sound(at, Rate / 50, Rate * 0.002, -0.9f);

        var result = LineUpAnalysis.Measure(mid, side, Rate, new() { Order = [LineUpDirection.Left, LineUpDirection.Right] });

        Assert.Equal(2, result.Directions.Count);
        Assert.False(result.SideInverted.Answer);
    }

    [Fact]
    public void WithoutNoise_GainDelayAndSpacingAreExact()
    {
        LineUpDirection[] order = [LineUpDirection.Front, LineUpDirection.Left, LineUpDirection.Right, new("45°", 45), new("-45°", -45)];
        var scene = new LineUpScene { SignalOverNoise = null, Delay = 1.25, GainDecibels = -4, Spacing = (0.03, 0.01), Order = order };

        var result = LineUpScene.Measure(scene);

        Assert.Equal(-4, result.GainOffset.Value, 0.05);
        Assert.Equal(1.25, result.Delay.Value, 0.01);
        Assert.Equal(0.03, result.SpacingForward.Value, 0.0005);
        Assert.Equal(0.01, result.SpacingLeft.Value, 0.0005);
        Assert.Equal(90, result.SideAngle.Value, 0.1);
    }

    [Theory]
    [InlineData(20)]
    [InlineData(-12)]
    public void ATurnedSide_HasItsAngleMeasured_AndIsFound(double turned)
    {
        var result = LineUpScene.Measure(new() { SideTurned = turned, GainDecibels = 2, SideInverted = turned < 0 });

        Assert.Equal(90 + turned, result.SideAngle.Value, 0.5);
        Assert.Equal(2, result.GainOffset.Value, 0.2);
        Assert.Contains(result.Findings, f => f.Kind == LineUpKinds.SideNotSquare);
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(0.37)]
    [InlineData(0.7)]
    public void AnUnknownPattern_IsSolvedFromFrontSidesAndRear_WhenTheyAreEquallyLoud(double pattern)
    {
        var scene = new LineUpScene { Pattern = pattern, GainDecibels = -3, ClapDeviation = 0.2, Seed = 5 };

        var result = LineUpScene.Measure(scene, new());

        // An ideal cardioid does not hear the rear at all: the pattern is then taken for granted, and rightly.
        Assert.Equal(pattern == 0.5, !result.MeasuredMidPattern.IsKnown);
        Assert.True(pattern == 0.5 || Math.Abs(result.MeasuredMidPattern.Value - pattern) < Math.Min(0.1, result.MeasuredMidPattern.Uncertainty));
        Assert.InRange(result.GainOffset.Value, -3 - Math.Max(0.2, result.GainOffset.Uncertainty), -3 + Math.Max(0.2, result.GainOffset.Uncertainty));
        Assert.True(result.GainOffset.Uncertainty < 2);
    }

    [Fact]
    public void AMidThatPointsBackwards_IsFound()
    {
        var result = LineUpScene.Measure(new() { MidTurned = 180, Pattern = 0.4 });

        Assert.Contains(result.Findings, f => f.Kind == LineUpKinds.MidBackwards);
    }

    [Fact]
    public void AReflectionAfterTheDirectSound_AndWind_DoNotFoolIt()
    {
        var scene = new LineUpScene { Reflection = (3.1, 0.7), Wind = 0.05, GainDecibels = -5, Delay = 1.4, SideInverted = true, Swapped = true };

        var result = LineUpScene.Measure(scene);

        Assert.True(result.SideInverted is { IsKnown: true, Answer: true } && result.FirstIsMid is { IsKnown: true, Answer: false });
        Assert.Equal(-5, result.GainOffset.Value, 0.2);
        Assert.Equal(1.4, result.Delay.Value, 0.05);
    }

    [Fact]
    public void NoiseAlone_TellsNothing_AndSaysSo()
    {
        var random = new Random(3);
        var channels = Enumerable.Range(0, 2).Select(_ => Enumerable.Range(0, 480000).Select(_ => (float)(0.01 * (random.NextDouble() - 0.5))).ToArray()).ToArray();

        var result = LineUpAnalysis.Measure(channels[0], channels[1], 48000, new());

        Assert.False(result.FirstIsMid.IsKnown || result.SideInverted.IsKnown || result.GainOffset.IsKnown || result.Delay.IsKnown);
        Assert.Equal(LineUpKinds.CannotTell, Assert.Single(result.Findings).Kind);
        // White noise of 0.01/√12: −50.8 dBFS in all.
        Assert.Equal(20 * Math.Log10(0.01 / Math.Sqrt(12)), result.Noise[0].Level.Value, 0.2);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1000)]
    [InlineData(48000)]
    public void SilenceOfAnyLength_TellsNothing(int length)
    {
        var result = LineUpAnalysis.Measure(new float[length], new float[length], 48000, new());

        Assert.False(result.FirstIsMid.IsKnown || result.GainOffset.IsKnown || result.Noise[0].Level.IsKnown);
    }

    [Fact]
    public void AtEightDecibels_NoNumberIsWrongByMoreThanItsUncertaintyAllows()
    {
        for (var seed = 0; seed < 6; seed++)
        {
            var result = LineUpScene.Measure(new() { SignalOverNoise = 8, GainDecibels = 3, Delay = 2, Seed = seed });

            Assert.True(!result.GainOffset.IsKnown || Math.Abs(result.GainOffset.Value - 3) < 2 * result.GainOffset.Uncertainty);
            Assert.True(!result.Delay.IsKnown || Math.Abs(result.Delay.Value - 2) < 2 * result.Delay.Uncertainty);
            Assert.True(!result.FirstIsMid.IsKnown || result.FirstIsMid.Answer);
            Assert.True(!result.SideInverted.IsKnown || !result.SideInverted.Answer);
        }
    }

    [Fact]
    public void ALeftRightPair_IsNotTakenForMidAndSide()
    {
        var (mid, side) = new LineUpScene().Make();
        var left = mid.Zip(side, (m, s) => m + (0.5f * s)).ToArray();
        var right = mid.Zip(side, (m, s) => m - (0.5f * s)).ToArray();

        var result = LineUpAnalysis.Measure(left, right, 48000, new());

        Assert.False(result.FirstIsMid.IsKnown && result.SideInverted.IsKnown);
    }

    [Fact]
    public void TheUsualOrderWithoutRear_IsRead_AndSaidToBeAssumed()
    {
        var result = LineUpScene.Measure(new() { Order = [LineUpDirection.Front, LineUpDirection.Left, LineUpDirection.Right] }, new());

        Assert.Equal("front left right", string.Join(" ", result.Directions.Select(d => d.Direction.Name)));
        Assert.Contains(result.Assumptions, a => a.Contains("usual", StringComparison.Ordinal));
        Assert.Equal(0, result.GainOffset.Value, 0.2);
    }
}
