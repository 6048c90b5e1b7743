using System.Numerics;
using Athwart.Signals.Fourier;
using Athwart.Signals.Tests.Shaping;

namespace Athwart.Signals.Tests.Fourier;

public sealed class FixedFourierTransformTests
{
    [Theory]
    [InlineData(4), InlineData(8), InlineData(16), InlineData(32), InlineData(64), InlineData(512), InlineData(1024)]
    public void Forward_AnyLength_AgreesWithTheDefinition(int length)
    {
        var (real, imaginary) = StageProof.Noise(length, length);
        var signal = real.Zip(imaginary, (r, i) => new Complex(r, i)).ToArray();
        new FixedFourierTransform(length).Forward(real, imaginary);
        for (var k = 0; k < length; k++)
        {
            var sum = Complex.Zero;
            for (var n = 0; n < length; n++)
                sum += signal[n] * Complex.FromPolarCoordinates(1, -2 * Math.PI * ((long)k * n % length) / length);
            Assert.Equal(0, (sum - new Complex(real[k], imaginary[k])).Magnitude, 1e-14 * length);
        }
    }

    [Theory]
    [InlineData(8), InlineData(4096), InlineData(8192)]
    public void Inverse_OfForward_IsTheSignalTimesTheLength(int length)
    {
        var (real, imaginary) = StageProof.Noise(length, 3);
        var (r, i) = ((double[])real.Clone(), (double[])imaginary.Clone());
        var transform = new FixedFourierTransform(length);
        transform.Forward(r, i);
        transform.Inverse(r, i);
        for (var n = 0; n < length; n++)
            Assert.Equal((0, 0), (Math.Round((r[n] / length) - real[n], 14), Math.Round((i[n] / length) - imaginary[n], 14)));
    }

    [Theory]
    [InlineData(4), InlineData(8), InlineData(16), InlineData(64), InlineData(128), InlineData(2048), InlineData(4096)]
    public void Forward_WithAndWithoutVectors_GivesTheSameBits(int length)
    {
        var (real, imaginary) = StageProof.Noise(length, 8);
        var (r, i) = ((double[])real.Clone(), (double[])imaginary.Clone());
        new FixedFourierTransform(length).Forward(real, imaginary);
        new FixedFourierTransform(length) { UseVectors = false }.Forward(r, i);
        StageProof.SameBits(r, real);
        StageProof.SameBits(i, imaginary);
    }

    [Theory]
    [InlineData(0), InlineData(3), InlineData(12), InlineData(1 << 23)]
    public void Lengths_ThatAreNotOnOffer_AreRefused(int length) => Assert.Throws<ArgumentOutOfRangeException>(() => new FixedFourierTransform(length));
}
