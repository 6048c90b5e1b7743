namespace Athwart.Metering.Portrait;

/// <summary>Power spectra of mid and side from one complex transform: mid as the real part, side as the imaginary part.</summary>
/// <remarks>
/// A small radix-2 transform of its own, in double, for pictures only; the one place to exchange it is <see cref="Transform"/>.
/// Powers are scaled so that a sine of amplitude 1 on a bin reads 1.
/// </remarks>
internal sealed class PairTransform
{
    private readonly double[] _window;
    private readonly double[] _cosine;
    private readonly double[] _sine;
    private readonly double[] _real;
    private readonly double[] _imaginary;
    private readonly double _scale;

    /// <param name="size">A power of two, 4 or more.</param>
    public PairTransform(int size)
    {
        Size = size;
        _window = new double[size];
        _cosine = new double[size / 2];
        _sine = new double[size / 2];
        _real = new double[size];
        _imaginary = new double[size];
        MidPower = new double[(size / 2) + 1];
        SidePower = new double[(size / 2) + 1];
        var sum = 0.0;
        for (var i = 0; i < size; i++)
            sum += _window[i] = 0.5 - (0.5 * Math.Cos(2 * Math.PI * i / size));
        for (var i = 0; i < size / 2; i++)
            (_sine[i], _cosine[i]) = Math.SinCos(-2 * Math.PI * i / size);
        _scale = 4 / (sum * sum);
    }

    public int Size { get; }

    /// <summary>Summed since <see cref="Clear"/>, bins 0 to Size/2.</summary>
    public double[] MidPower { get; }

    public double[] SidePower { get; }

    public void Clear()
    {
        MidPower.AsSpan().Clear();
        SidePower.AsSpan().Clear();
    }

    /// <summary>Adds the spectra of the last Size frames; <paramref name="oldest"/> is where the ring starts.</summary>
    public void AddPower(float[] midRing, float[] sideRing, int oldest)
    {
        for (var i = 0; i < Size; i++)
        {
            var at = (oldest + i) & (Size - 1);
            _real[i] = _window[i] * midRing[at];
            _imaginary[i] = _window[i] * sideRing[at];
        }

        Transform(_real, _imaginary);
        for (var k = 0; k <= Size / 2; k++)
            Separate(k, (Size - k) & (Size - 1));
    }

    /// <summary>The spectra of two real signals lie in the even and odd parts of the joint one.</summary>
    private void Separate(int k, int mirror)
    {
        double midReal = _real[k] + _real[mirror], midImaginary = _imaginary[k] - _imaginary[mirror];
        double sideReal = _imaginary[k] + _imaginary[mirror], sideImaginary = _real[mirror] - _real[k];
        MidPower[k] += _scale / 4 * ((midReal * midReal) + (midImaginary * midImaginary));
        SidePower[k] += _scale / 4 * ((sideReal * sideReal) + (sideImaginary * sideImaginary));
    }

    private void Transform(double[] real, double[] imaginary)
    {
        ReverseBits(real, imaginary);
        for (var half = 1; half < Size; half *= 2)
        {
            var step = Size / (2 * half);
            for (var start = 0; start < Size; start += 2 * half)
            {
                for (var i = 0; i < half; i++)
                    Butterfly(real, imaginary, start + i, start + i + half, _cosine[i * step], _sine[i * step]);
            }
        }
    }

    private static void Butterfly(double[] real, double[] imaginary, int a, int b, double cosine, double sine)
    {
        var re = (real[b] * cosine) - (imaginary[b] * sine);
        var im = (real[b] * sine) + (imaginary[b] * cosine);
        (real[b], imaginary[b]) = (real[a] - re, imaginary[a] - im);
        (real[a], imaginary[a]) = (real[a] + re, imaginary[a] + im);
    }

    private void ReverseBits(double[] real, double[] imaginary)
    {
        for (int i = 1, j = 0; i < Size; i++)
        {
            var bit = Size >> 1;
            for (; (j & bit) != 0; bit >>= 1)
                j ^= bit;
            j |= bit;
            if (i >= j)
                continue;
            (real[i], real[j]) = (real[j], real[i]);
            (imaginary[i], imaginary[j]) = (imaginary[j], imaginary[i]);
        }
    }
}
