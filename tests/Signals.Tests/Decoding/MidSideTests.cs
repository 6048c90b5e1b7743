using Athwart.Signals.Decoding;
using CsCheck;

namespace Athwart.Signals.Tests.Decoding;

public sealed class MidSideTests
{
    private static readonly Gen<float[]> Blocks = Gen.Float[-1, 1].Array[0, 70];

    // Common practice, no source: the side feeds the left channel, its inverse the right, the mid both.
    [Fact]
    public void Decode_SideAlone_GoesLeftUprightAndRightInverted()
    {
        double[] left = new double[1], right = new double[1];
        MidSide.Decode([0.0], [0.5], 1, left, right);
        Assert.Equal((0.5, -0.5), (left[0], right[0]));
        MidSide.Decode([0.25], [0.0], 1, left, right);
        Assert.Equal((0.25, 0.25), (left[0], right[0]));
    }

    // REFERENCES D1, derived: a cardioid mid with side gain 0.5 is a coincident pair at ±45° of pattern 0.414 (√2 − 1), on-axis gain 0.5 + 0.5·√2.
    [Theory]
    [InlineData(0), InlineData(30), InlineData(45), InlineData(90), InlineData(135), InlineData(-120), InlineData(180)]
    public void Decode_CardioidMidSideGainOneHalf_IsTheCrossedPairAtNinetyDegrees(double azimuthDegrees)
    {
        var azimuth = azimuthDegrees * Math.PI / 180;
        double[] left = new double[1], right = new double[1];
        MidSide.Decode([0.5 + (0.5 * Math.Cos(azimuth))], [Math.Sin(azimuth)], 0.5, left, right);
        var pattern = Math.Sqrt(2) - 1;
        var onAxis = 0.5 + (0.5 * Math.Sqrt(2));
        Assert.Equal(onAxis * (pattern + ((1 - pattern) * Math.Cos(azimuth - (Math.PI / 4)))), left[0], 1e-15);
        Assert.Equal(onAxis * (pattern + ((1 - pattern) * Math.Cos(azimuth + (Math.PI / 4)))), right[0], 1e-15);
    }

    [Theory]
    [InlineData(0), InlineData(1), InlineData(7), InlineData(8), InlineData(9), InlineData(33), InlineData(4096)]
    public void Decode_AnyLength_GivesTheBitsOfThePlainLoop(int length)
    {
        var random = new Random(length);
        var mid = Noise(random, length);
        var side = Noise(random, length);
        float[] left = new float[length], right = new float[length];
        MidSide.Decode(mid, side, 0.7071f, left, right);
        for (var n = 0; n < length; n++)
        {
            var product = 0.7071f * side[n];
            Assert.Equal(mid[n] + product, left[n]);
            Assert.Equal(mid[n] - product, right[n]);
        }
    }

    [Fact]
    public void Decode_InPlaceEitherWayRound_GivesTheBitsOfSeparateBuffers() => Gen.Select(Blocks, Gen.Float[0, 4], Gen.Bool).Sample((mid, gain, swapped) =>
    {
        var side = Enumerable.Reverse(mid).ToArray();
        float[] left = new float[mid.Length], right = new float[mid.Length];
        MidSide.Decode(mid, side, gain, left, right);
        float[] a = [.. mid], b = [.. side];
        MidSide.Decode(a, b, gain, swapped ? b : a, swapped ? a : b);
        Assert.Equal(left, swapped ? b : a);
        Assert.Equal(right, swapped ? a : b);
    });

    [Fact]
    public void Decode_NegatedSide_SwapsLeftAndRightExactly() => Gen.Select(Blocks, Gen.Float[0, 4]).Sample((mid, gain) =>
    {
        var side = mid.Select(v => (v * v) - 0.3f).ToArray();
        float[] left = new float[mid.Length], right = new float[mid.Length], swappedLeft = new float[mid.Length], swappedRight = new float[mid.Length];
        MidSide.Decode(mid, side, gain, left, right);
        MidSide.Decode(mid, side.Select(v => -v).ToArray(), gain, swappedLeft, swappedRight);
        Assert.Equal(left, swappedRight);
        Assert.Equal(right, swappedLeft);
    });

    [Fact]
    public void Decode_OutputShiftedAgainstAnInput_IsRejected()
    {
        var buffer = new float[20];
        Assert.Throws<ArgumentException>(() => MidSide.Decode(buffer.AsSpan(0, 8), new float[8], 1, buffer.AsSpan(1, 8), new float[8]));
        Assert.Throws<ArgumentException>(() => MidSide.Decode(new float[8], new float[8], 1, buffer.AsSpan(0, 8), buffer.AsSpan(4, 8)));
        Assert.Throws<ArgumentException>(() => MidSide.Decode(new float[8], new float[7], 1, new float[8], new float[8]));
    }

    private static float[] Noise(Random random, int length) => [.. Enumerable.Range(0, length).Select(_ => (float)((random.NextDouble() * 2) - 1))];
}
