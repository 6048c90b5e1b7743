using static Athwart.Metering.Tests.Support.Tones;

namespace Athwart.Metering.Tests;

/// <summary>EBU Tech 3342 V4 (2023), Table 1; tolerance 1 LU as printed. The second figure is what another meter read, ±0.1.</summary>
public class Tech3342Tests
{
    [Theory]
    [InlineData(10, -20, -30)]
    [InlineData(5, -20, -15)]
    [InlineData(20, -40, -20)]
    [InlineData(15, -50, -35, -20, -35, -50)]
    public void Tech3342_Tests1To4_StepsOf20Seconds_ReadTheirRange(double expected, params int[] levels)
    {
        var signal = Steps(Rate, 1000, [.. levels.Select(l => (20.0, (double)l))]);
        var range = Measure(signal).Range.Value;
        Assert.Equal(expected, range, 1.0);
        // ffmpeg ebur128 on the same synthesised signals read 10.0, 5.0, 20.0, 15.0 (docs/sources.md#tech3342).
        Assert.Equal(expected, range, 0.1);
        Assert.Equal(range, Measure([.. signal, .. signal]).Range.Value, 0.3);
    }

    [Fact]
    public void Tech3342_ATakeBelow3Seconds_HasNoRange() => Assert.Equal(0, Measure(Steps(Rate, 1000, (2, -20))).Range.Value);
}
