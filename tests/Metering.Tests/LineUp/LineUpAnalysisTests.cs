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
        for (var variant = 0; variant < 4; variant++)
        {
            var scene = new LineUpScene { Rate = rate, Pattern = pattern, GainDecibels = gain, Delay = delay, Swapped = (variant & 1) != 0, SideInverted = (variant & 2) != 0, Seed = variant + 1 };
            var result = LineUpScene.Measure(scene);
            output.WriteLine($"{result.FirstIsMid} {result.SideInverted} {result.GainOffset} {result.Delay} {result.SideAngle} {result.MeasuredMidPattern}");
            Assert.True(result.FirstIsMid.IsKnown && result.SideInverted.IsKnown, string.Join("; ", result.Findings.Select(f => f.Message)));
            Assert.Equal(!scene.Swapped, result.FirstIsMid.Answer);
            Assert.Equal(scene.SideInverted, result.SideInverted.Answer);
            Assert.Equal(gain, result.GainOffset.Value, 0.2);
            Assert.Equal(delay, result.Delay.Value, 0.05);
        }
    }
}
