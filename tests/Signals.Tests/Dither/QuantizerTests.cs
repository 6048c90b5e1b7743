using Athwart.Signals.Dither;
using CsCheck;

namespace Athwart.Signals.Tests.Dither;

public sealed class QuantizerTests
{
    [Fact]
    public void Quantize_AnySamples_GivesTheBitsOfThePlainFormula() =>
        Gen.Select(Gen.Double[-1.2, 1.2].Array[0, 1100], Gen.Int[8, 32], Gen.Bool).Sample((samples, bits, dithered) =>
        {
            TriangularDither? dither = dithered ? new TriangularDither(2, 1) : null;
            var steps = new int[samples.Length];
            var peak = Quantizer.Quantize(samples, bits, dither, 7, steps);
            long beyond = 0;
            for (var n = 0; n < samples.Length; n++)
            {
                var exact = Math.Round((samples[n] * Math.Pow(2, bits - 1)) + ((dither?.UnitsAt(7 + n) ?? 0) / 65536.0), MidpointRounding.ToEven);
                var held = Math.Clamp(exact, -Math.Pow(2, bits - 1), Math.Pow(2, bits - 1) - 1);
                Assert.Equal(held, steps[n]);
                beyond += held != exact ? 1 : 0;
                Assert.InRange(exact, peak.Lowest, peak.Highest);
            }

            Assert.Equal(beyond, peak.Beyond);
        });

    [Fact]
    public void Quantize_NotANumberAndInfinities_CountAsBeyond()
    {
        double[] samples = [double.NaN, double.PositiveInfinity, double.NegativeInfinity, 0.5, double.NaN, 0.5];
        var steps = new int[6];
        var peak = Quantizer.Quantize(samples, 16, null, 0, steps);
        Assert.Equal([0, 32767, -32768, 16384, 0, 16384], steps);
        Assert.Equal(new QuantizedPeak(double.NegativeInfinity, double.PositiveInfinity, 4), peak);
    }

    [Theory]
    [InlineData(16), InlineData(24), InlineData(32)]
    public void Quantize_FullScaleItself_IsOneStepTooMuch(int bits)
    {
        var steps = new int[2];
        Assert.Equal(1, Quantizer.Quantize([1.0, -1.0], bits, null, 0, steps).Beyond);
        Assert.Equal((int)((1L << (bits - 1)) - 1), steps[0]);
        Assert.Equal((int)-(1L << (bits - 1)), steps[1]);
    }

    [Fact]
    public void Quantize_Nothing_ReachesNothing() => Assert.Equal(QuantizedPeak.None, Quantizer.Quantize([], 24, null, 0, []));

    [Fact]
    public void ToSamples_AnySteps_ComeBackAsTheyWere() => Gen.Select(Gen.Int[-(1 << 23), (1 << 23) - 1].Array[0, 50], Gen.Int[24, 32]).Sample((steps, bits) =>
    {
        var samples = new double[steps.Length];
        Quantizer.ToSamples(steps, bits, samples);
        Assert.Equal(steps.Select(s => s / Math.Pow(2, bits - 1)), samples);
        var back = new int[steps.Length];
        Quantizer.Quantize(samples, bits, null, 0, back);
        Assert.Equal(steps, back);
    });

    [Fact]
    public void ToSingle_BeyondFullScale_IsKept()
    {
        var target = new float[2];
        Quantizer.ToSingle([1.5, -3.25], target);
        Assert.Equal([1.5f, -3.25f], target);
    }
}
