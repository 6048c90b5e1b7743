using Athwart.Signals.Decoding;
using Athwart.Signals.Shaping;
using CsCheck;

namespace Athwart.Signals.Tests.Shaping.Dynamics;

/// <summary>What holds for steps of the side alone one after the other, and for the matrix that follows them.</summary>
public sealed class SideOnlyChainTests
{
    private const int Rate = 8000;

    // Issue 5, section 6: decode of any side-only treatment folds to the same mid, to the bit in float.
    [Fact]
    public void AnyRowOfStepsOfTheSideAlone_FoldsToTheSameMid()
    {
        Gen.Select(Gen.Int[0, 7].Array[1, 6], Gen.Int, Gen.Double[-12, 6]).Sample((kinds, seed, level) =>
        {
            double[] mid = StageRun.Noise(seed, 3000, 0.25), side = StageRun.Noise(seed + 1, 3000, 0.05);
            var (m, s) = (mid, side);
            foreach (var kind in kinds)
                (m, s) = StageRun.Whole(Stage(kind), m, s);
            Assert.Equal(mid, m);

            // On a grid of 2^-22, as 23-bit words have it, the sums of the decode are exact in float.
            float[] centre = [.. m.Select(v => OnGrid(v))], width = [.. s.Select(v => OnGrid(Math.Clamp(v * Math.Pow(10, level / 20), -1, 1)))];
            float[] left = new float[centre.Length], right = new float[centre.Length];
            MidSide.Decode(centre, width, 1, left, right);
            for (var n = 0; n < centre.Length; n++)
                Assert.Equal(centre[n], (left[n] + right[n]) / 2);
        }, iter: 30);
    }

    // Published (read): mid gain 1 − w/2, side gain w/2 between sum and difference; 0 is mono, 1 leaves left and right as they are.
    [Fact]
    public void ThePublishedWidthMatrix_IsADecodeAtWOver2MinusW()
        => Gen.Select(Gen.Double[0, 1], Gen.Double[-1, 1], Gen.Double[-1, 1]).Sample((w, left, right) =>
        {
            double sum = left + right, difference = left - right;
            double[] l = new double[1], r = new double[1];
            MidSide.Decode([sum / 2], [difference / 2], w / (2 - w), l, r);
            Assert.Equal(((1 - (w / 2)) * sum) + (w / 2 * difference), (2 - w) * l[0], 1e-12);
            Assert.Equal(((1 - (w / 2)) * sum) - (w / 2 * difference), (2 - w) * r[0], 1e-12);
        });

    // Common practice: a side at −∞ is mono; left and right exchanged is the side inverted.
    [Fact]
    public void NoSideIsMonoAndAnInvertedSideExchangesLeftAndRight()
    {
        double[] mid = StageRun.Noise(1, 200), side = StageRun.Noise(2, 200), l = new double[200], r = new double[200], other = new double[200], another = new double[200];
        MidSide.Decode(mid, side, 0.7, l, r);
        var inverted = StageRun.Whole(new InvertStage(new(PairRoles.Side)), mid, side);
        MidSide.Decode(inverted.Mid, inverted.Side, 0.7, other, another);
        Assert.Equal(l, another);
        Assert.Equal(r, other);
        var gone = StageRun.Whole(new WidthOverTimeStage(new([new(0, double.NegativeInfinity)])), mid, side);
        MidSide.Decode(gone.Mid, gone.Side, 1, l, r);
        Assert.Equal(mid, l);
        Assert.Equal(mid, r);
    }

    private static IPairStage Stage(int kind) => kind switch
    {
        0 => new MonoGuardStage(new(0.2), Rate, 1.1),
        1 => new WidthOverTimeStage(new([new(500, -3), new(900, 6), new(2500, double.NegativeInfinity)])),
        2 => new BalanceStage(new(-10)),
        3 => new MadeUpSideStage(new(MadeUpMethod.VelvetNoise, keepsSide: true), Rate),
        4 => new MadeUpSideStage(new(MadeUpMethod.AllPass), Rate),
        5 => new TransientBalanceStage(new(PairRoles.Side, 4, -8), Rate),
        6 => new WidthFollowsStage(new(FollowedQuantity.Pitch, 200, 3000, -6, 6), Rate),
        _ => new TrimStage(new(PairRoles.Side, -2.5)),
    };

    private static float OnGrid(double value) => (float)(Math.Round(value * 4194304) / 4194304);
}
