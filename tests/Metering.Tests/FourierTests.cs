using System.Numerics;
using Athwart.Metering.Tests.Support;
using Athwart.Signals.Fourier;

namespace Athwart.Metering.Tests;

public class FourierTests
{
    public static TheoryData<int> Lengths => [4, 8, 16, 32, 64, 128, 256, 512, 1024, 2048];

    [Theory]
    [MemberData(nameof(Lengths))]
    public void TheTransform_EqualsTheDefinition(int length)
    {
        var (real, imaginary) = (Tones.Noise(length, 1, 1), Tones.Noise(length, 1, 2));
        var expected = Definition(real, imaginary);
        new FourierTransform(length).Forward(real, imaginary);
        var scale = Math.Sqrt(length);
        for (var k = 0; k < length; k++)
            Assert.Equal(0, (new Complex(real[k], imaginary[k]) - expected[k]).Magnitude / scale, 1e-5);
    }

    [Theory]
    [InlineData(4096)]
    [InlineData(8192)]
    [InlineData(65536)]
    public void ForwardThenInverse_GivesTheSignalTimesN_AndEnergyIsKept(int length)
    {
        var (real, imaginary) = (Tones.Noise(length, 1, 3), Tones.Noise(length, 1, 4));
        var (r, i) = ((float[])real.Clone(), (float[])imaginary.Clone());
        var transform = new FourierTransform(length);
        transform.Forward(r, i);
        // Parseval: Σ|X|² = N·Σ|x|².
        var energy = real.Zip(imaginary, (x, y) => ((double)x * x) + ((double)y * y)).Sum();
        Assert.Equal(1, r.Zip(i, (x, y) => ((double)x * x) + ((double)y * y)).Sum() / length / energy, 1e-6);
        transform.Inverse(r, i);
        Assert.All(Enumerable.Range(0, length), n => Assert.Equal(real[n], r[n] / length, 2e-6f));
        Assert.All(Enumerable.Range(0, length), n => Assert.Equal(imaginary[n], i[n] / length, 2e-6f));
    }

    [Fact]
    public void At4096_TheErrorAgainstADoubleTransform_IsBelowMinus130Decibels()
    {
        // MathNet.Numerics in double is the outside judge.
        var (real, imaginary) = (Tones.Noise(4096, 1, 5), Tones.Noise(4096, 1, 6));
        var judge = real.Zip(imaginary, (x, y) => new Complex(x, y)).ToArray();
        MathNet.Numerics.IntegralTransforms.Fourier.Forward(judge, MathNet.Numerics.IntegralTransforms.FourierOptions.AsymmetricScaling);
        new FourierTransform(4096).Forward(real, imaginary);
        var (error, power) = (0.0, 0.0);
        for (var k = 0; k < 4096; k++)
        {
            var right = judge[k];
            error += Math.Pow((new Complex(real[k], imaginary[k]) - right).Magnitude, 2);
            power += Math.Pow(right.Magnitude, 2);
        }

        Assert.InRange(10 * Math.Log10(error / power), -200, -130);
    }

    [Theory]
    [InlineData(16)]
    [InlineData(128)]
    [InlineData(4096)]
    public void TheScalarTwin_AgreesWithTheVectorPath(int length)
    {
        var (real, imaginary) = (Tones.Noise(length, 1, 7), Tones.Noise(length, 1, 8));
        var (r, i) = ((float[])real.Clone(), (float[])imaginary.Clone());
        new FourierTransform(length).Forward(real, imaginary);
        new FourierTransform(length) { UseVectors = false }.Forward(r, i);
        Assert.All(Enumerable.Range(0, length), k => Assert.Equal(r[k], real[k], 1e-4f));
        Assert.All(Enumerable.Range(0, length), k => Assert.Equal(i[k], imaginary[k], 1e-4f));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    [InlineData(6)]
    [InlineData(4095)]
    public void ALengthThatIsNoPowerOfTwo_IsRefused(int length) => Assert.Throws<ArgumentOutOfRangeException>(() => new FourierTransform(length));

    private static Complex[] Definition(float[] real, float[] imaginary)
    {
        var n = real.Length;
        var bins = new Complex[n];
        for (var k = 0; k < n; k++)
        {
            for (var i = 0; i < n; i++)
                bins[k] += new Complex(real[i], imaginary[i]) * Complex.FromPolarCoordinates(1, -2 * Math.PI * ((long)k * i % n) / n);
        }

        return bins;
    }
}
