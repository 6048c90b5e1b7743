namespace Athwart.Metering.LineUp;

/// <summary>Power of two channels and their cross power, bin by bin: cross = conj(A)·B, whose phase is that of B over A.</summary>
internal sealed class PairPowers(int bins)
{
    public double[] A { get; } = new double[bins];

    public double[] B { get; } = new double[bins];

    public double[] CrossReal { get; } = new double[bins];

    public double[] CrossImaginary { get; } = new double[bins];

    /// <summary>The powers of one stretch, channel B taken later by a whole number of frames.</summary>
    /// <returns>Null when the stretch is not all inside the take.</returns>
    public static PairPowers? Of(SoundPair pair, DirectWindow window, int onset, int lag)
    {
        var (fromA, fromB) = (onset - window.Lead + Math.Max(0, -lag), onset - window.Lead + Math.Max(0, lag));
        if (Math.Min(fromA, fromB) < 0 || Math.Max(fromA, fromB) + window.Length > pair.Length)
            return null;
        var (real, imaginary) = (new float[window.Transform.Length], new float[window.Transform.Length]);
        for (var i = 0; i < window.Length; i++)
        {
            real[i] = window.Taper[i] * pair.Cut[0][fromA + i];
            imaginary[i] = window.Taper[i] * pair.Cut[1][fromB + i];
        }

        window.Transform.Forward(real, imaginary);
        return Separate(real, imaginary, window.Bins);
    }

    /// <summary>Adds another stretch, weighted.</summary>
    public void Add(PairPowers other, double weight)
    {
        for (var k = 0; k < A.Length; k++)
        {
            A[k] += weight * other.A[k];
            B[k] += weight * other.B[k];
            CrossReal[k] += weight * other.CrossReal[k];
            CrossImaginary[k] += weight * other.CrossImaginary[k];
        }
    }

    /// <summary>The same with the channels changed over.</summary>
    public PairPowers Swapped()
    {
        var swapped = new PairPowers(A.Length);
        for (var k = 0; k < A.Length; k++)
            (swapped.A[k], swapped.B[k], swapped.CrossReal[k], swapped.CrossImaginary[k]) = (B[k], A[k], CrossReal[k], -CrossImaginary[k]);
        return swapped;
    }

    // Both real signals went through one transform as real and imaginary part: A = (Z[k] + conj Z[−k])/2, B = (Z[k] − conj Z[−k])/2i.
    private static PairPowers Separate(float[] real, float[] imaginary, int bins)
    {
        var powers = new PairPowers(bins);
        for (var k = 0; k < bins; k++)
        {
            var mirror = (real.Length - k) % real.Length;
            var (ar, ai) = ((real[k] + (double)real[mirror]) / 2, (imaginary[k] - (double)imaginary[mirror]) / 2);
            var (br, bi) = ((imaginary[k] + (double)imaginary[mirror]) / 2, ((double)real[mirror] - real[k]) / 2);
            powers.A[k] = (ar * ar) + (ai * ai);
            powers.B[k] = (br * br) + (bi * bi);
            powers.CrossReal[k] = (ar * br) + (ai * bi);
            powers.CrossImaginary[k] = (ar * bi) - (ai * br);
        }

        return powers;
    }
}
