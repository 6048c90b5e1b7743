using Athwart.Signals.Convolution;
using Athwart.Signals.Shaping;

namespace Athwart.Signals.Tests.Shaping;

public class DesignedTapsTests
{
    [Fact]
    public void EqualSettings_AreDesignedOnce_UntilOthersPushThemOut()
    {
        var designs = 0;
        double[] Ask(double hertz) => DesignedTaps.Of(new WidthCurve([new(hertz, 3)], FilterPhase.Linear), "test", 48_000, () => [designs++]);
        var first = Ask(1000);
        Assert.Same(first, Ask(1000));
        Assert.Equal(1, designs);
        Assert.NotSame(first, DesignedTaps.Of(new WidthCurve([new(1000, 3)], FilterPhase.Linear), "test", 96_000, () => [7]));
        for (var n = 0; n < 2 * DesignedTaps.Most; n++)
            Ask(2000 + n);
        Assert.NotSame(first, Ask(1000));
    }

    [Fact]
    public void AStageMadeAgain_GivesTheSameBits()
    {
        ResponseMatchStage Make(double decibels) => new(new(PairRoles.Side, [new(1000, decibels), new(1250, -1)]), 48_000);
        var (mid, side) = StageProof.Noise(20_000, 3);
        var once = StageProof.Run(Make(2), mid, side);
        var again = StageProof.Run(Make(2), mid, side);
        var other = StageProof.Run(Make(3), mid, side);
        StageProof.SameBits(once.Side, again.Side);
        Assert.NotEqual(once.Side, other.Side);
    }
}
