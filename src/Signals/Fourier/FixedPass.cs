using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using Athwart.Signals.FixedMath;

namespace Athwart.Signals.Fourier;

/// <summary>One radix-4 pass of <see cref="FixedFourierTransform"/>; the butterfly is that of <see cref="Pass"/>, in double precision.</summary>
internal sealed class FixedPass
{
    private readonly int _stride;
    private readonly int _count;
    private readonly double[] _w1r, _w1i, _w2r, _w2i, _w3r, _w3i;

    public FixedPass(int n, int stride)
    {
        (_stride, _count) = (stride, n / 4);
        (_w1r, _w1i) = Twiddles(n, 1);
        (_w2r, _w2i) = Twiddles(n, 2);
        (_w3r, _w3i) = Twiddles(n, 3);
    }

    public void Run(ReadOnlySpan<double> xr, ReadOnlySpan<double> xi, Span<double> yr, Span<double> yi, bool vectors)
    {
        if (vectors && _stride >= 4)
            Wide(xr, xi, yr, yi);
        else if (vectors && Avx.IsSupported && _count >= 4)
            First(xr, xi, yr, yi);
        else
            Scalar(xr, xi, yr, yi);
    }

    private static (double[] Real, double[] Imaginary) Twiddles(int n, int power)
    {
        var (real, imaginary) = (new double[n / 4], new double[n / 4]);
        for (var p = 0; p < n / 4; p++)
        {
            var turn = 2.0 * p * power / n; // exact: n is a power of two
            (real[p], imaginary[p]) = (FixedTrigonometry.CosPi(turn), -FixedTrigonometry.SinPi(turn));
        }

        return (real, imaginary);
    }

    private void Scalar(ReadOnlySpan<double> xr, ReadOnlySpan<double> xi, Span<double> yr, Span<double> yi)
    {
        var quarter = _count * _stride;
        for (var p = 0; p < _count; p++)
        {
            for (var q = 0; q < _stride; q++)
            {
                var (k, o) = ((_stride * p) + q, (_stride * 4 * p) + q);
                var (sr, si) = (xr[k] + xr[k + (2 * quarter)], xi[k] + xi[k + (2 * quarter)]);
                var (dr, di) = (xr[k] - xr[k + (2 * quarter)], xi[k] - xi[k + (2 * quarter)]);
                var (tr, ti) = (xr[k + quarter] + xr[k + (3 * quarter)], xi[k + quarter] + xi[k + (3 * quarter)]);
                var (er, ei) = (xr[k + quarter] - xr[k + (3 * quarter)], xi[k + quarter] - xi[k + (3 * quarter)]);
                (yr[o], yi[o]) = (sr + tr, si + ti);
                (yr[o + _stride], yi[o + _stride]) = Times(_w1r[p], _w1i[p], dr + ei, di - er);
                (yr[o + (2 * _stride)], yi[o + (2 * _stride)]) = Times(_w2r[p], _w2i[p], sr - tr, si - ti);
                (yr[o + (3 * _stride)], yi[o + (3 * _stride)]) = Times(_w3r[p], _w3i[p], dr - ei, di + er);
            }
        }
    }

    private static (double Real, double Imaginary) Times(double wr, double wi, double r, double i) => ((wr * r) - (wi * i), (wr * i) + (wi * r));

    /// <summary>Strides of 4 and more: four series at a time, one twiddle for all.</summary>
    private void Wide(ReadOnlySpan<double> xr, ReadOnlySpan<double> xi, Span<double> yr, Span<double> yi)
    {
        ref var r = ref MemoryMarshal.GetReference(xr);
        ref var i = ref MemoryMarshal.GetReference(xi);
        ref var u = ref MemoryMarshal.GetReference(yr);
        ref var v = ref MemoryMarshal.GetReference(yi);
        var (quarter, s) = ((nuint)(_count * _stride), (nuint)_stride);
        for (nuint p = 0; p < (nuint)_count; p++)
        {
            var (w1r, w1i) = (Vector256.Create(_w1r[p]), Vector256.Create(_w1i[p]));
            var (w2r, w2i) = (Vector256.Create(_w2r[p]), Vector256.Create(_w2i[p]));
            var (w3r, w3i) = (Vector256.Create(_w3r[p]), Vector256.Create(_w3i[p]));
            for (nuint q = 0; q < s; q += 4)
            {
                var (k, o) = ((s * p) + q, (s * 4 * p) + q);
                var b = new Butterfly(ref r, ref i, k, quarter);
                b.R0.StoreUnsafe(ref u, o);
                b.I0.StoreUnsafe(ref v, o);
                var (r1, i1) = Times(w1r, w1i, b.R1, b.I1);
                r1.StoreUnsafe(ref u, o + s);
                i1.StoreUnsafe(ref v, o + s);
                var (r2, i2) = Times(w2r, w2i, b.R2, b.I2);
                r2.StoreUnsafe(ref u, o + (2 * s));
                i2.StoreUnsafe(ref v, o + (2 * s));
                var (r3, i3) = Times(w3r, w3i, b.R3, b.I3);
                r3.StoreUnsafe(ref u, o + (3 * s));
                i3.StoreUnsafe(ref v, o + (3 * s));
            }
        }
    }

    /// <summary>The last radix-4 pass, of two butterflies a series, and the radix-2 pass that joins them; may write where it reads.</summary>
    public void RunWithPairs(ReadOnlySpan<double> xr, ReadOnlySpan<double> xi, Span<double> yr, Span<double> yi)
    {
        ref var r = ref MemoryMarshal.GetReference(xr);
        ref var i = ref MemoryMarshal.GetReference(xi);
        ref var u = ref MemoryMarshal.GetReference(yr);
        ref var v = ref MemoryMarshal.GetReference(yi);
        var s = (nuint)_stride;
        for (nuint q = 0; q < s; q += 4)
        {
            var a = new Butterfly(ref r, ref i, q, 2 * s);
            var b = new Butterfly(ref r, ref i, q + s, 2 * s);
            Pair((a.R0, a.I0), (b.R0, b.I0), ref u, ref v, q, 4 * s);
            Pair(Turned(0, _w1r, _w1i, a.R1, a.I1), Turned(1, _w1r, _w1i, b.R1, b.I1), ref u, ref v, q + s, 4 * s);
            Pair(Turned(0, _w2r, _w2i, a.R2, a.I2), Turned(1, _w2r, _w2i, b.R2, b.I2), ref u, ref v, q + (2 * s), 4 * s);
            Pair(Turned(0, _w3r, _w3i, a.R3, a.I3), Turned(1, _w3r, _w3i, b.R3, b.I3), ref u, ref v, q + (3 * s), 4 * s);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Vector256<double> Real, Vector256<double> Imaginary) Turned(int p, double[] wr, double[] wi, Vector256<double> r, Vector256<double> i) =>
        Times(Vector256.Create(wr[p]), Vector256.Create(wi[p]), r, i);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Pair((Vector256<double> Real, Vector256<double> Imaginary) a, (Vector256<double> Real, Vector256<double> Imaginary) b, ref double u, ref double v, nuint at, nuint half)
    {
        (a.Real + b.Real).StoreUnsafe(ref u, at);
        (a.Real - b.Real).StoreUnsafe(ref u, at + half);
        (a.Imaginary + b.Imaginary).StoreUnsafe(ref v, at);
        (a.Imaginary - b.Imaginary).StoreUnsafe(ref v, at + half);
    }

    /// <summary>Stride 1: four butterflies at a time, whose outputs are woven together.</summary>
    private void First(ReadOnlySpan<double> xr, ReadOnlySpan<double> xi, Span<double> yr, Span<double> yi)
    {
        ref var r = ref MemoryMarshal.GetReference(xr);
        ref var i = ref MemoryMarshal.GetReference(xi);
        ref var u = ref MemoryMarshal.GetReference(yr);
        ref var v = ref MemoryMarshal.GetReference(yi);
        for (nuint p = 0; p < (nuint)_count; p += 4)
        {
            var b = new Butterfly(ref r, ref i, p, (nuint)_count);
            var (r1, i1) = Times(Vector256.LoadUnsafe(ref _w1r[0], p), Vector256.LoadUnsafe(ref _w1i[0], p), b.R1, b.I1);
            var (r2, i2) = Times(Vector256.LoadUnsafe(ref _w2r[0], p), Vector256.LoadUnsafe(ref _w2i[0], p), b.R2, b.I2);
            var (r3, i3) = Times(Vector256.LoadUnsafe(ref _w3r[0], p), Vector256.LoadUnsafe(ref _w3i[0], p), b.R3, b.I3);
            Weave(b.R0, r1, r2, r3, ref u, 4 * p);
            Weave(b.I0, i1, i2, i3, ref v, 4 * p);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Weave(Vector256<double> a, Vector256<double> b, Vector256<double> c, Vector256<double> d, ref double to, nuint at)
    {
        var (abEven, abOdd) = (Avx.UnpackLow(a, b), Avx.UnpackHigh(a, b));
        var (cdEven, cdOdd) = (Avx.UnpackLow(c, d), Avx.UnpackHigh(c, d));
        Avx.Permute2x128(abEven, cdEven, 0x20).StoreUnsafe(ref to, at);
        Avx.Permute2x128(abOdd, cdOdd, 0x20).StoreUnsafe(ref to, at + 4);
        Avx.Permute2x128(abEven, cdEven, 0x31).StoreUnsafe(ref to, at + 8);
        Avx.Permute2x128(abOdd, cdOdd, 0x31).StoreUnsafe(ref to, at + 12);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Vector256<double> Real, Vector256<double> Imaginary) Times(Vector256<double> wr, Vector256<double> wi, Vector256<double> r, Vector256<double> i) =>
        ((wr * r) - (wi * i), (wr * i) + (wi * r));

    /// <summary>Four radix-4 butterflies before their twiddles.</summary>
    private readonly ref struct Butterfly
    {
        public readonly Vector256<double> R0, I0, R1, I1, R2, I2, R3, I3;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Butterfly(ref double r, ref double i, nuint k, nuint quarter)
        {
            var (ar, ai) = (Vector256.LoadUnsafe(ref r, k), Vector256.LoadUnsafe(ref i, k));
            var (br, bi) = (Vector256.LoadUnsafe(ref r, k + quarter), Vector256.LoadUnsafe(ref i, k + quarter));
            var (cr, ci) = (Vector256.LoadUnsafe(ref r, k + (2 * quarter)), Vector256.LoadUnsafe(ref i, k + (2 * quarter)));
            var (dr, di) = (Vector256.LoadUnsafe(ref r, k + (3 * quarter)), Vector256.LoadUnsafe(ref i, k + (3 * quarter)));
            var (sr, si, tr, ti) = (ar + cr, ai + ci, br + dr, bi + di);
            var (er, ei, fr, fi) = (ar - cr, ai - ci, br - dr, bi - di);
            (R0, I0, R1, I1) = (sr + tr, si + ti, er + fi, ei - fr);
            (R2, I2, R3, I3) = (sr - tr, si - ti, er - fi, ei + fr);
        }
    }
}
