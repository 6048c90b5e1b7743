using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Athwart.Signals.Fourier;

/// <summary>One radix-4 pass of the Stockham transform: n/4 butterflies, each for <c>stride</c> neighbouring series.</summary>
/// <remarks>
/// Reads are at k, k + N/4, k + N/2 and k + 3N/4 for k = stride·p + q; writes at stride·(4p + j) + q, which sorts as it goes. Writing
/// a, b, c, d for the four values and w for e^(−2πi·p/n): out0 = (a + c) + (b + d), out1 = w·((a − c) − i(b − d)),
/// out2 = w²·((a + c) − (b + d)), out3 = w³·((a − c) + i(b − d)).
/// </remarks>
internal sealed class Pass
{
    private readonly int _stride;
    private readonly int _count;
    private readonly float[] _w1r, _w1i, _w2r, _w2i, _w3r, _w3i;

    public Pass(int n, int stride)
    {
        (_stride, _count) = (stride, n / 4);
        (_w1r, _w1i) = Twiddles(n, 1);
        (_w2r, _w2i) = Twiddles(n, 2);
        (_w3r, _w3i) = Twiddles(n, 3);
    }

    public void Run(ReadOnlySpan<float> xr, ReadOnlySpan<float> xi, Span<float> yr, Span<float> yi, bool vectors)
    {
        if (vectors && _stride >= 8)
            Wide(xr, xi, yr, yi);
        else if (vectors && _stride == 4)
            Four(xr, xi, yr, yi);
        else if (vectors && Sse.IsSupported && _count >= 4)
            First(xr, xi, yr, yi);
        else
            Scalar(xr, xi, yr, yi);
    }

    private static (float[] Real, float[] Imaginary) Twiddles(int n, int power)
    {
        var (real, imaginary) = (new float[n / 4], new float[n / 4]);
        for (var p = 0; p < n / 4; p++)
        {
            var (sin, cos) = Math.SinCos(-2 * Math.PI * p * power / n);
            (real[p], imaginary[p]) = ((float)cos, (float)sin);
        }

        return (real, imaginary);
    }

    private void Scalar(ReadOnlySpan<float> xr, ReadOnlySpan<float> xi, Span<float> yr, Span<float> yi)
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

    private static (float Real, float Imaginary) Times(float wr, float wi, float r, float i) => ((wr * r) - (wi * i), (wr * i) + (wi * r));

    /// <summary>Strides of 16 and more: eight series at a time, one twiddle for all.</summary>
    private void Wide(ReadOnlySpan<float> xr, ReadOnlySpan<float> xi, Span<float> yr, Span<float> yi)
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
            for (nuint q = 0; q < s; q += 8)
            {
                var (k, o) = ((s * p) + q, (s * 4 * p) + q);
                var (ar, ai) = (Vector256.LoadUnsafe(ref r, k), Vector256.LoadUnsafe(ref i, k));
                var (br, bi) = (Vector256.LoadUnsafe(ref r, k + quarter), Vector256.LoadUnsafe(ref i, k + quarter));
                var (cr, ci) = (Vector256.LoadUnsafe(ref r, k + (2 * quarter)), Vector256.LoadUnsafe(ref i, k + (2 * quarter)));
                var (dr, di) = (Vector256.LoadUnsafe(ref r, k + (3 * quarter)), Vector256.LoadUnsafe(ref i, k + (3 * quarter)));
                var (sr, si, tr, ti) = (ar + cr, ai + ci, br + dr, bi + di);
                var (er, ei, fr, fi) = (ar - cr, ai - ci, br - dr, bi - di);
                (sr + tr).StoreUnsafe(ref u, o);
                (si + ti).StoreUnsafe(ref v, o);
                Store(w1r, w1i, er + fi, ei - fr, ref u, ref v, o + s);
                Store(w2r, w2i, sr - tr, si - ti, ref u, ref v, o + (2 * s));
                Store(w3r, w3i, er - fi, ei + fr, ref u, ref v, o + (3 * s));
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store(Vector256<float> wr, Vector256<float> wi, Vector256<float> r, Vector256<float> i, ref float u, ref float v, nuint at)
    {
        ((wr * r) - (wi * i)).StoreUnsafe(ref u, at);
        ((wr * i) + (wi * r)).StoreUnsafe(ref v, at);
    }

    /// <summary>Stride 4: the four series of one butterfly.</summary>
    private void Four(ReadOnlySpan<float> xr, ReadOnlySpan<float> xi, Span<float> yr, Span<float> yi)
    {
        ref var r = ref MemoryMarshal.GetReference(xr);
        ref var i = ref MemoryMarshal.GetReference(xi);
        ref var u = ref MemoryMarshal.GetReference(yr);
        ref var v = ref MemoryMarshal.GetReference(yi);
        var quarter = (nuint)(_count * 4);
        for (nuint p = 0; p < (nuint)_count; p++)
        {
            var b = new Butterfly(ref r, ref i, 4 * p, quarter);
            var o = 16 * p;
            b.Out0(ref u, ref v, o);
            var (r1, i1) = Butterfly.Times(Vector128.Create(_w1r[p]), Vector128.Create(_w1i[p]), b.R1, b.I1);
            var (r2, i2) = Butterfly.Times(Vector128.Create(_w2r[p]), Vector128.Create(_w2i[p]), b.R2, b.I2);
            var (r3, i3) = Butterfly.Times(Vector128.Create(_w3r[p]), Vector128.Create(_w3i[p]), b.R3, b.I3);
            r1.StoreUnsafe(ref u, o + 4);
            i1.StoreUnsafe(ref v, o + 4);
            r2.StoreUnsafe(ref u, o + 8);
            i2.StoreUnsafe(ref v, o + 8);
            r3.StoreUnsafe(ref u, o + 12);
            i3.StoreUnsafe(ref v, o + 12);
        }
    }

    /// <summary>Stride 1: four butterflies at a time, whose outputs are woven together.</summary>
    private void First(ReadOnlySpan<float> xr, ReadOnlySpan<float> xi, Span<float> yr, Span<float> yi)
    {
        ref var r = ref MemoryMarshal.GetReference(xr);
        ref var i = ref MemoryMarshal.GetReference(xi);
        ref var u = ref MemoryMarshal.GetReference(yr);
        ref var v = ref MemoryMarshal.GetReference(yi);
        for (nuint p = 0; p < (nuint)_count; p += 4)
        {
            var b = new Butterfly(ref r, ref i, p, (nuint)_count);
            var (r1, i1) = Butterfly.Times(Vector128.LoadUnsafe(ref _w1r[0], p), Vector128.LoadUnsafe(ref _w1i[0], p), b.R1, b.I1);
            var (r2, i2) = Butterfly.Times(Vector128.LoadUnsafe(ref _w2r[0], p), Vector128.LoadUnsafe(ref _w2i[0], p), b.R2, b.I2);
            var (r3, i3) = Butterfly.Times(Vector128.LoadUnsafe(ref _w3r[0], p), Vector128.LoadUnsafe(ref _w3i[0], p), b.R3, b.I3);
            Weave(b.R0, r1, r2, r3, ref u, 4 * p);
            Weave(b.I0, i1, i2, i3, ref v, 4 * p);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Weave(Vector128<float> a, Vector128<float> b, Vector128<float> c, Vector128<float> d, ref float to, nuint at)
    {
        var (abLow, abHigh) = (Sse.UnpackLow(a, b), Sse.UnpackHigh(a, b));
        var (cdLow, cdHigh) = (Sse.UnpackLow(c, d), Sse.UnpackHigh(c, d));
        Sse.MoveLowToHigh(abLow, cdLow).StoreUnsafe(ref to, at);
        Sse.MoveHighToLow(cdLow, abLow).StoreUnsafe(ref to, at + 4);
        Sse.MoveLowToHigh(abHigh, cdHigh).StoreUnsafe(ref to, at + 8);
        Sse.MoveHighToLow(cdHigh, abHigh).StoreUnsafe(ref to, at + 12);
    }

    /// <summary>Four radix-4 butterflies before their twiddles.</summary>
    private readonly ref struct Butterfly
    {
        public readonly Vector128<float> R0, I0, R1, I1, R2, I2, R3, I3;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Butterfly(ref float r, ref float i, nuint k, nuint quarter)
        {
            var (ar, ai) = (Vector128.LoadUnsafe(ref r, k), Vector128.LoadUnsafe(ref i, k));
            var (br, bi) = (Vector128.LoadUnsafe(ref r, k + quarter), Vector128.LoadUnsafe(ref i, k + quarter));
            var (cr, ci) = (Vector128.LoadUnsafe(ref r, k + (2 * quarter)), Vector128.LoadUnsafe(ref i, k + (2 * quarter)));
            var (dr, di) = (Vector128.LoadUnsafe(ref r, k + (3 * quarter)), Vector128.LoadUnsafe(ref i, k + (3 * quarter)));
            var (sr, si, tr, ti) = (ar + cr, ai + ci, br + dr, bi + di);
            var (er, ei, fr, fi) = (ar - cr, ai - ci, br - dr, bi - di);
            (R0, I0, R1, I1) = (sr + tr, si + ti, er + fi, ei - fr);
            (R2, I2, R3, I3) = (sr - tr, si - ti, er - fi, ei + fr);
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public static (Vector128<float> Real, Vector128<float> Imaginary) Times(Vector128<float> wr, Vector128<float> wi, Vector128<float> r, Vector128<float> i) =>
            ((wr * r) - (wi * i), (wr * i) + (wi * r));

        public void Out0(ref float u, ref float v, nuint at)
        {
            R0.StoreUnsafe(ref u, at);
            I0.StoreUnsafe(ref v, at);
        }
    }
}
