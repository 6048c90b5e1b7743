using Athwart.Microphones.Patterns;
using Athwart.Microphones.Rigs;
using Athwart.Quantities;
using CsCheck;

namespace Athwart.Microphones.Tests.Rigs;

public static class DiffuseFieldTests
{
    [Fact]
    public static void ClosedForms_AgreeWithIntegrationOverTheSphere()
        => Gen.Select(Gen.Double[0, 1], Gen.Double[-20, 20]).Sample((share, level) =>
        {
            var pair = MidSidePair.WithFigureEight(new FirstOrderPattern(share), new(level));
            var field = DiffuseField.Of(pair, Near.OneKilohertz);
            var (left, right, cross, rear) = OverTheSphere(share, pair.SideLevel.AmplitudeRatio);

            Assert.Equal(cross / Math.Sqrt(left * right), field.Correlation!.Value, 1e-6);
            Assert.Equal(rear / (left + right), field.RearShare, 1e-6);
            Assert.Equal(left, field.MidPower + field.SidePower, 1e-5 * left);
            var crossed = VirtualPair.Of(pair, Near.OneKilohertz);
            Assert.Equal(crossed.OnAxisGain.Value - (10 * Math.Log10(left)), field.Left.Index.Value, 1e-4);
        }, iter: 40);

    [Fact]
    public static void TheVirtualPattern_HasTheDirectivityOfTheDecodedLeft()
        => Gen.Select(Gen.Double[0, 1], Gen.Double[-20, 20]).Sample((share, level) =>
        {
            var pair = MidSidePair.WithFigureEight(new FirstOrderPattern(share), new(level));
            var (field, crossed) = (DiffuseField.Of(pair, Near.OneKilohertz), VirtualPair.Of(pair, Near.OneKilohertz));
            Assert.Equal(PatternFigures.Of(crossed.Pattern).DirectivityIndex.Value, field.Left.Index.Value, 1e-9);
            Assert.Equal(PatternFigures.Of(new FirstOrderPattern(share)).DistanceFactor, field.Mid.DistanceFactor, 1e-9);
        });

    [Fact]
    public static void MeasuredPatterns_AreIntegratedToTheClosedForms()
        => Gen.Select(Gen.Double[0, 1], Gen.Double[0, 0.07], Gen.Double[-12, 12]).Sample((share, leak, level) =>
        {
            // A side that leaks a little omni: left and right no longer gather alike, so the cross term counts.
            var pair = new MidSidePair(new Unnamed(share), new Unnamed(leak), new(level));
            var field = DiffuseField.Of(pair, Near.OneKilohertz);

            Assert.Equal((share * share) + ((1 - share) * (1 - share) / 3), field.MidPower, 1e-8);
            Assert.Equal(pair.SideLevel.AmplitudeRatio * share * leak, field.CrossPower, 1e-6);
        }, iter: 40);

    [Fact]
    public static void ACardioidMid_HearsStraightBehindNothing_AndAnOmniAsMuchAsAhead()
    {
        Assert.Equal(Decibels.Silence, Field(FirstOrderPattern.Cardioid).LevelAt180);
        Assert.Equal(0, Field(FirstOrderPattern.Omni).LevelAt180.Value, 1e-9);
        Assert.Equal(-20 * Math.Log10(2), Field(FirstOrderPattern.Hypercardioid).LevelAt180.Value, 1e-9);
        Assert.Equal(0.5, Field(FirstOrderPattern.Omni).RearShare, 1e-12);
        Assert.Equal(0.5, Field(FirstOrderPattern.FigureEight).RearShare, 1e-12);
    }

    // A side adds room and nothing of a source straight ahead, so the front stands out less.
    [Fact]
    public static void MoreSide_LowersTheDirectToDiffuseRatioOfTheFront()
    {
        double last = double.PositiveInfinity;
        foreach (var level in new[] { -60.0, -12, -6, 0, 6 })
        {
            var pair = MidSidePair.WithFigureEight(FirstOrderPattern.Cardioid, new(level));
            var ratio = DiffuseField.Of(pair, Near.OneKilohertz).DirectToDiffuse(pair, default, Near.OneKilohertz).Value;
            Assert.True(ratio < last);
            last = ratio;
        }

        var mono = MidSidePair.WithFigureEight(FirstOrderPattern.Cardioid, Decibels.Silence);
        Assert.Equal(10 * Math.Log10(3), DiffuseField.Of(mono, Near.OneKilohertz).DirectToDiffuse(mono, default, Near.OneKilohertz).Value, 1e-9);
    }

    private static DiffuseField Field(FirstOrderPattern mid) => DiffuseField.Of(MidSidePair.WithFigureEight(mid, default), Near.OneKilohertz);

    /// <summary>Left, right, their product and the energy from behind, by the midpoint rule in z and azimuth: another way than the code's.</summary>
    private static (double Left, double Right, double Cross, double Rear) OverTheSphere(double share, double g)
    {
        const int Bands = 2000;
        const int Around = 16;
        var (left, right, cross, rear) = (0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < Bands; i++)
        {
            // Bands along the front-back axis: x is the cosine off the mid's axis and all bands weigh alike.
            var x = -1 + ((i + 0.5) * 2 / Bands);
            for (var j = 0; j < Around; j++)
            {
                var y = Math.Sqrt(1 - (x * x)) * Math.Cos((j + 0.5) * 2 * Math.PI / Around);
                var (l, r) = (share + ((1 - share) * x) + (g * y), share + ((1 - share) * x) - (g * y));
                (left, right, cross) = (left + (l * l), right + (r * r), cross + (l * r));
                rear += x < 0 ? (l * l) + (r * r) : 0;
            }
        }

        const double Cells = Bands * Around;
        return (left / Cells, right / Cells, cross / Cells, rear / Cells);
    }
}
