using Athwart.Metering.Tests.Support;
using Athwart.Metering.Width;

namespace Athwart.Metering.Tests.Width;

/// <summary>Width against closed forms: with uncorrelated mid and side of powers M and S everything follows from g²·S/M.</summary>
public class WidthTests
{
    private const int Rate = 48000;

    [Fact]
    public void SafeSideLevels_FollowFromTheRatioOfThePowers()
    {
        // Side 6.02 dB below the mid.
        var width = Of(Tones.Noise(20 * Rate, 0.2, 1), Tones.Noise(20 * Rate, 0.1, 2));
        // A band loses 3 dB when g²·S = (10^0.3 − 1)·M; in each third octave chance moves that a little.
        Assert.Equal(6.02, width.SafeForMono!.Value.Value, 0.6);
        Assert.Equal(6.02, width.SafeForCorrelation!.Value.Value, 0.3);
        // r = 0.95 = (1 − x)/(1 + x): x = 1/39.
        Assert.Equal(6.02 + (10 * Math.Log10(1 / 39.0)), width.WideFrom!.Value.Value, 0.1);
        Assert.All(width.MonoLoss.Where(b => b.Hertz > 500), b => Assert.Equal(10 * Math.Log10(1.25), b.LossDecibels, 0.25));
        Assert.Empty(width.WorstMoments);
        Assert.Equal(0, width.LeftMinusRight.Value, 0.1);
    }

    [Fact]
    public void ASoundOnTheLeft_LeansByWhatItsRatioGives_WhereItIs()
    {
        var (mid, side) = (Tones.Noise(20 * Rate, 0.1, 3), Tones.Noise(20 * Rate, 0.05, 4));
        // For four seconds the side is half the mid: left 1.5, right 0.5 of it.
        for (var i = 10 * Rate; i < 14 * Rate; i++)
            side[i] = mid[i] / 2;
        var width = Of(mid, side);
        Assert.Equal(20 * Math.Log10(3), width.FurthestLean!.Value.Value, 0.1);
        Assert.InRange(width.FurthestLean!.Value.Range.From.Value, 10L * Rate, 11L * Rate);
        Assert.True(width.LeftMinusRight.Value is > 0.5 and < 4);
    }

    [Fact]
    public void OpposedMoments_AreListed_WorstFirst_WithoutOverlap()
    {
        var (mid, side) = (Tones.Noise(10 * Rate, 0.1, 5), Tones.Noise(10 * Rate, 0.02, 6));
        for (var i = 3 * Rate; i < 4 * Rate; i++)
            mid[i] *= 0.02f;
        for (var i = 3 * Rate; i < 4 * Rate; i++)
            side[i] *= 4;
        var moments = Of(mid, side).WorstMoments;
        Assert.NotEmpty(moments);
        Assert.All(moments, m => Assert.True(m.Range.From.Value >= (2.6 * Rate) && m.Range.To.Value <= 4.4 * Rate));
        Assert.Equal(moments.OrderBy(m => m.Value), moments);
        for (var i = 0; i < moments.Count; i++)
            Assert.DoesNotContain(moments.Skip(i + 1), m => m.Range.From < moments[i].Range.To && moments[i].Range.From < m.Range.To);
    }

    [Fact]
    public void Silence_HasNoMoments_AndNothingIsKnown()
    {
        var width = Of(new float[Rate], new float[Rate]);
        Assert.Empty(width.WorstMoments);
        Assert.Empty(width.MonoLoss);
        Assert.True(double.IsNaN(width.LeftMinusRight.Value));
        Assert.Null(width.SafeUpTo);
    }

    private static WidthMeasures Of(float[] mid, float[] side)
    {
        var meter = new TakeMeter(Rate, SampleScale.FloatingPoint, new() { Faults = true });
        meter.Add(mid, side);
        return WidthAnalysis.Of(meter.Complete());
    }
}
