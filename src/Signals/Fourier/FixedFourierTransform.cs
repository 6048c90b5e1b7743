using System.Runtime.Intrinsics;

namespace Athwart.Signals.Fourier;

/// <summary>
/// The complex discrete Fourier transform X[k] = Σ x[n]·e^(−2πi·k·n/N) of a power-of-two length in double precision, for the audio path:
/// the same bits on every machine, with and without vectors. Real and imaginary parts in planes of their own.
/// </summary>
/// <remarks>
/// Stockham's self-sorting form with radix-4 passes and one radix-2 pass where the length asks for it, like <see cref="FourierTransform"/>;
/// every value is computed by the same operations in the same order whichever path is taken, and twiddles come from FixedMath. Error
/// about 1e-15 of the largest bin. An instance owns its scratch: one a thread.
/// </remarks>
public sealed class FixedFourierTransform
{
    // Twiddles of lengths up to 2^17 are worked out once; 2 MiB for the longest. Two threads that ask at once get the same numbers.
    private const int MostKept = 17;
    private static readonly FixedPass[]?[] Kept = new FixedPass[]?[MostKept + 1];

    private readonly double[] _scratchReal;
    private readonly double[] _scratchImaginary;
    private readonly FixedPass[] _passes;
    private readonly bool _endsInPairs;

    /// <summary>Prepares a length.</summary>
    /// <param name="length">N, a power of two, 4 to 2^22.</param>
    /// <exception cref="ArgumentOutOfRangeException">The length is no power of two or outside.</exception>
    public FixedFourierTransform(int length)
    {
        if (length is < 4 or > 1 << 22 || !int.IsPow2(length))
            throw new ArgumentOutOfRangeException(nameof(length), length, "The length must be a power of two from 4 to 2^22.");
        Length = length;
        (_scratchReal, _scratchImaginary) = (new double[length], new double[length]);
        _passes = length <= 1 << MostKept ? Kept[int.Log2(length)] ??= Passes(length) : Passes(length);
        _endsInPairs = int.Log2(length) % 2 == 1;
    }

    /// <summary>N.</summary>
    public int Length { get; }

    /// <summary>Whether vectors are used where the machine has them; for comparing the two.</summary>
    public bool UseVectors { get; init; } = Vector256.IsHardwareAccelerated;

    /// <summary>Transforms in place; not scaled.</summary>
    /// <param name="real">N real parts.</param>
    /// <param name="imaginary">N imaginary parts.</param>
    /// <exception cref="ArgumentException">A span has another length.</exception>
    public void Forward(Span<double> real, Span<double> imaginary)
    {
        if (real.Length != Length || imaginary.Length != Length)
            throw new ArgumentException($"The transform is for {Length} samples; given were {real.Length} and {imaginary.Length}.", nameof(real));
        Span<double> ar = real, ai = imaginary, br = _scratchReal, bi = _scratchImaginary;
        // Where vectors are wide enough the last two passes are one, in place.
        var last = _endsInPairs && UseVectors && Length >= 32 ? _passes.Length - 1 : _passes.Length;
        for (var n = 0; n < last; n++)
        {
            _passes[n].Run(ar, ai, br, bi, UseVectors);
            var keptReal = ar;
            ar = br;
            br = keptReal;
            var keptImaginary = ai;
            ai = bi;
            bi = keptImaginary;
        }

        if (last < _passes.Length)
        {
            _passes[last].RunWithPairs(ar, ai, real, imaginary);
        }
        else if (_endsInPairs)
        {
            Pairs(ar, ai, real, imaginary);
        }
        else if (_passes.Length % 2 == 1)
        {
            ar.CopyTo(real);
            ai.CopyTo(imaginary);
        }
    }

    /// <summary>Transforms back in place: Forward then Inverse gives the signal times N.</summary>
    public void Inverse(Span<double> real, Span<double> imaginary) => Forward(imaginary, real);

    private static FixedPass[] Passes(int length)
    {
        var passes = new List<FixedPass>();
        for (var (n, stride) = (length, 1); n >= 4; n /= 4, stride *= 4)
            passes.Add(new(n, stride));
        return [.. passes];
    }

    /// <summary>The last radix-2 pass; may write where it reads.</summary>
    private static void Pairs(Span<double> ar, Span<double> ai, Span<double> yr, Span<double> yi)
    {
        var half = ar.Length / 2;
        for (var q = 0; q < half; q++)
        {
            var (r0, r1, i0, i1) = (ar[q], ar[q + half], ai[q], ai[q + half]);
            (yr[q], yr[q + half]) = (r0 + r1, r0 - r1);
            (yi[q], yi[q + half]) = (i0 + i1, i0 - i1);
        }
    }
}
