using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Metering;

/// <summary>Takes the spectra of two real signals out of their joint transform Z = M + i·S: M[k] = (Z[k] + Z*[N−k])/2 and i·S[k] = (Z[k] − Z*[N−k])/2.</summary>
internal static class JointSpectrum
{
    private static readonly Vector256<int> Backwards = Vector256.Create(7, 6, 5, 4, 3, 2, 1, 0);

    /// <summary>Keeps the larger of what is held and |M[k]|², and the same of S, for the bins from 1 up to half the length.</summary>
    public static void HoldPowers(ReadOnlySpan<float> real, ReadOnlySpan<float> imaginary, Span<float> mid, Span<float> side)
    {
        var (length, bins) = (real.Length, real.Length / 2);
        var k = 1;
        if (Vector256.IsHardwareAccelerated)
        {
            ref var m = ref MemoryMarshal.GetReference(mid[..bins]);
            ref var s = ref MemoryMarshal.GetReference(side[..bins]);
            var quarter = Vector256.Create(0.25f);
            for (; k + 8 <= bins; k += 8)
            {
                var z = new Eight(real, imaginary, k);
                Vector256.Max(Vector256.LoadUnsafe(ref m, (nuint)k), z.MidPower * quarter).StoreUnsafe(ref m, (nuint)k);
                Vector256.Max(Vector256.LoadUnsafe(ref s, (nuint)k), z.SidePower * quarter).StoreUnsafe(ref s, (nuint)k);
            }
        }

        for (; k < bins; k++)
        {
            var (ar, ai, br, bi) = (real[k], imaginary[k], real[length - k], imaginary[length - k]);
            mid[k] = MathF.Max(mid[k], (((ar + br) * (ar + br)) + ((ai - bi) * (ai - bi))) / 4);
            side[k] = MathF.Max(side[k], (((ar - br) * (ar - br)) + ((ai + bi) * (ai + bi))) / 4);
        }
    }

    /// <summary>Σ|2M|², Σ|2S|² and Σ Re(2M·(2S)*) over the bins from..to, at least 1 and at most half the length.</summary>
    public static (double Mid, double Side, double Product) Sums(ReadOnlySpan<float> real, ReadOnlySpan<float> imaginary, int from, int to)
    {
        var (length, k) = (real.Length, from);
        double mid = 0, side = 0, product = 0;
        if (Vector256.IsHardwareAccelerated && k + 8 <= to)
        {
            var (m, s, p) = (Vector256<double>.Zero, Vector256<double>.Zero, Vector256<double>.Zero);
            for (; k + 8 <= to; k += 8)
            {
                var z = new Eight(real, imaginary, k);
                m += Sum(z.MidPower);
                s += Sum(z.SidePower);
                p += Sum(z.Product);
            }

            (mid, side, product) = (Vector256.Sum(m), Vector256.Sum(s), Vector256.Sum(p));
        }

        for (; k < to; k++)
        {
            double xr = real[k], xi = imaginary[k], yr = real[length - k], yi = imaginary[length - k];
            double mr = xr + yr, mi = xi - yi, sr = xi + yi, si = yr - xr;
            mid += (mr * mr) + (mi * mi);
            side += (sr * sr) + (si * si);
            product += (sr * mr) + (si * mi);
        }

        return (mid, side, product);
    }

    private static Vector256<double> Sum(Vector256<float> x)
    {
        var (low, high) = Vector256.Widen(x);
        return low + high;
    }

    /// <summary>Twice the spectra at eight bins, the mirrored half read backwards.</summary>
    private readonly ref struct Eight
    {
        private readonly Vector256<float> _mr, _mi, _sr, _si;

        public Eight(ReadOnlySpan<float> real, ReadOnlySpan<float> imaginary, int k)
        {
            ref var r = ref MemoryMarshal.GetReference(real);
            ref var i = ref MemoryMarshal.GetReference(imaginary);
            var (ar, ai) = (Vector256.LoadUnsafe(ref r, (nuint)k), Vector256.LoadUnsafe(ref i, (nuint)k));
            var br = Vector256.Shuffle(Vector256.LoadUnsafe(ref r, (nuint)(real.Length - k - 7)), Backwards);
            var bi = Vector256.Shuffle(Vector256.LoadUnsafe(ref i, (nuint)(real.Length - k - 7)), Backwards);
            (_mr, _mi, _sr, _si) = (ar + br, ai - bi, ai + bi, br - ar);
        }

        public Vector256<float> MidPower => (_mr * _mr) + (_mi * _mi);

        public Vector256<float> SidePower => (_sr * _sr) + (_si * _si);

        public Vector256<float> Product => (_mr * _sr) + (_mi * _si);
    }
}
