using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Signals.Filters;

/// <summary>The inner loops of <see cref="SectionCascade"/>: all give the bits of <see cref="SectionState.Next"/>.</summary>
internal static class SectionKernel
{
    /// <summary>One section of one role.</summary>
    public static void One(SectionState a, Span<double> samples)
    {
        var c = a.Coefficients;
        var (x1, x2, y1, y2) = (a.X1, a.X2, a.Y1, a.Y2);
        foreach (ref var sample in samples)
        {
            var x = sample;
            var y = (((c.B0 * x) + (c.B1 * x1)) + (c.B2 * x2)) - (c.A2 * y2) - (c.A1 * y1);
            (x2, x1, y2, y1) = (x1, x, y1, y);
            sample = y;
        }

        (a.X1, a.X2, a.Y1, a.Y2) = (x1, x2, y1, y2);
    }

    /// <summary>Two sections of one role, the second one frame behind in the upper lane.</summary>
    public static void Two(SectionState a, SectionState b, Span<double> samples)
    {
        var (p, q) = (a.Coefficients, b.Coefficients);
        var (b0, b1, b2) = (Vector128.Create(p.B0, q.B0), Vector128.Create(p.B1, q.B1), Vector128.Create(p.B2, q.B2));
        var (a1, a2) = (Vector128.Create(p.A1, q.A1), Vector128.Create(p.A2, q.A2));
        a.Next(samples[0]);
        Vector128<double> x1 = Vector128.Create(a.X1, b.X1), x2 = Vector128.Create(a.X2, b.X2);
        Vector128<double> y1 = Vector128.Create(a.Y1, b.Y1), y2 = Vector128.Create(a.Y2, b.Y2);
        ref var s = ref MemoryMarshal.GetReference(samples);
        for (nuint n = 1; n < (nuint)samples.Length; n++)
        {
            var x = Vector128.Create(Unsafe.Add(ref s, n), y1.ToScalar());
            var y = (((b0 * x) + (b1 * x1)) + (b2 * x2)) - (a2 * y2) - (a1 * y1);
            Unsafe.Add(ref s, n - 1) = y.GetElement(1);
            (x2, x1, y2, y1) = (x1, x, y1, y);
        }

        (a.X1, a.X2, a.Y1, a.Y2) = (x1[0], x2[0], y1[0], y2[0]);
        (b.X1, b.X2, b.Y1, b.Y2) = (x1[1], x2[1], y1[1], y2[1]);
        samples[^1] = b.Next(a.Y1);
    }

    /// <summary>One section of both roles: mid below, side above.</summary>
    public static void OneOfBoth(SectionState m, SectionState s, Span<double> mid, Span<double> side)
    {
        var (p, q) = (m.Coefficients, s.Coefficients);
        var (b0, b1, b2) = (Vector128.Create(p.B0, q.B0), Vector128.Create(p.B1, q.B1), Vector128.Create(p.B2, q.B2));
        var (a1, a2) = (Vector128.Create(p.A1, q.A1), Vector128.Create(p.A2, q.A2));
        Vector128<double> x1 = Vector128.Create(m.X1, s.X1), x2 = Vector128.Create(m.X2, s.X2);
        Vector128<double> y1 = Vector128.Create(m.Y1, s.Y1), y2 = Vector128.Create(m.Y2, s.Y2);
        side = side[..mid.Length];
        for (var n = 0; n < mid.Length; n++)
        {
            var x = Vector128.Create(mid[n], side[n]);
            var y = (((b0 * x) + (b1 * x1)) + (b2 * x2)) - (a2 * y2) - (a1 * y1);
            (mid[n], side[n]) = (y[0], y[1]);
            (x2, x1, y2, y1) = (x1, x, y1, y);
        }

        (m.X1, m.X2, m.Y1, m.Y2) = (x1[0], x2[0], y1[0], y2[0]);
        (s.X1, s.X2, s.Y1, s.Y2) = (x1[1], x2[1], y1[1], y2[1]);
    }

    /// <summary>Two sections of both roles: the first below, the second one frame behind above.</summary>
    public static void TwoOfBoth(SectionState ma, SectionState sa, SectionState mb, SectionState sb, Span<double> mid, Span<double> side)
    {
        ma.Next(mid[0]);
        sa.Next(side[0]);
        var w = new Quad(ma, sa, mb, sb);
        var (x1, x2, y1, y2) = (w.X1, w.X2, w.Y1, w.Y2);
        ref var m = ref MemoryMarshal.GetReference(mid);
        ref var s = ref MemoryMarshal.GetReference(side[..mid.Length]);
        for (nuint n = 1; n < (nuint)mid.Length; n++)
        {
            var x = Vector256.Create(Vector128.Create(Unsafe.Add(ref m, n), Unsafe.Add(ref s, n)), y1.GetLower());
            var y = (((w.B0 * x) + (w.B1 * x1)) + (w.B2 * x2)) - (w.A2 * y2) - (w.A1 * y1);
            var done = y.GetUpper();
            Unsafe.Add(ref m, n - 1) = done.ToScalar();
            Unsafe.Add(ref s, n - 1) = done.GetElement(1);
            (x2, x1, y2, y1) = (x1, x, y1, y);
        }

        Quad.Keep(ma, sa, mb, sb, x1, x2, y1, y2);
        mid[^1] = mb.Next(ma.Y1);
        side[^1] = sb.Next(sa.Y1);
    }

    /// <summary>One section of one role and two of the other: the first of each below, the second one frame behind at the top.</summary>
    public static void OneAndTwo(SectionState a, Span<double> one, SectionState b, SectionState c, Span<double> two)
    {
        var (p, q, r) = (a.Coefficients, b.Coefficients, c.Coefficients);
        var (b0, b1, b2) = (Vector256.Create(p.B0, q.B0, 0, r.B0), Vector256.Create(p.B1, q.B1, 0, r.B1), Vector256.Create(p.B2, q.B2, 0, r.B2));
        var (a1, a2) = (Vector256.Create(p.A1, q.A1, 0, r.A1), Vector256.Create(p.A2, q.A2, 0, r.A2));
        one[0] = a.Next(one[0]);
        b.Next(two[0]);
        Vector256<double> x1 = Vector256.Create(a.X1, b.X1, 0, c.X1), x2 = Vector256.Create(a.X2, b.X2, 0, c.X2);
        Vector256<double> y1 = Vector256.Create(a.Y1, b.Y1, 0, c.Y1), y2 = Vector256.Create(a.Y2, b.Y2, 0, c.Y2);
        ref var m = ref MemoryMarshal.GetReference(one);
        ref var s = ref MemoryMarshal.GetReference(two[..one.Length]);
        for (nuint n = 1; n < (nuint)one.Length; n++)
        {
            // The third lane has no weights and stays at nought.
            var x = Vector256.Create(Vector128.Create(Unsafe.Add(ref m, n), Unsafe.Add(ref s, n)), y1.GetLower());
            var y = (((b0 * x) + (b1 * x1)) + (b2 * x2)) - (a2 * y2) - (a1 * y1);
            Unsafe.Add(ref m, n) = y.ToScalar();
            Unsafe.Add(ref s, n - 1) = y.GetUpper().GetElement(1);
            (x2, x1, y2, y1) = (x1, x, y1, y);
        }

        (a.X1, a.X2, a.Y1, a.Y2) = (x1[0], x2[0], y1[0], y2[0]);
        (b.X1, b.X2, b.Y1, b.Y2) = (x1[1], x2[1], y1[1], y2[1]);
        (c.X1, c.X2, c.Y1, c.Y2) = (x1[3], x2[3], y1[3], y2[3]);
        two[^1] = c.Next(b.Y1);
    }

    /// <summary>Four sections of both roles, each one frame behind the one before: two vectors that do not wait for each other. Three frames or more.</summary>
    public static void FourOfBoth(ReadOnlySpan<SectionState> mids, ReadOnlySpan<SectionState> sides, Span<double> mid, Span<double> side)
    {
        Lead(mids, mid);
        Lead(sides, side);
        var near = new Quad(mids[0], sides[0], mids[1], sides[1]);
        var far = new Quad(mids[2], sides[2], mids[3], sides[3]);
        var (x1, x2, y1, y2) = (near.X1, near.X2, near.Y1, near.Y2);
        var (u1, u2, v1, v2) = (far.X1, far.X2, far.Y1, far.Y2);
        ref var m = ref MemoryMarshal.GetReference(mid);
        ref var s = ref MemoryMarshal.GetReference(side[..mid.Length]);
        for (nuint n = 3; n < (nuint)mid.Length; n++)
        {
            var x = Vector256.Create(Vector128.Create(Unsafe.Add(ref m, n), Unsafe.Add(ref s, n)), y1.GetLower());
            var u = Vector256.Create(y1.GetUpper(), v1.GetLower());
            var y = (((near.B0 * x) + (near.B1 * x1)) + (near.B2 * x2)) - (near.A2 * y2) - (near.A1 * y1);
            var v = (((far.B0 * u) + (far.B1 * u1)) + (far.B2 * u2)) - (far.A2 * v2) - (far.A1 * v1);
            var done = v.GetUpper();
            Unsafe.Add(ref m, n - 3) = done.ToScalar();
            Unsafe.Add(ref s, n - 3) = done.GetElement(1);
            (x2, x1, y2, y1) = (x1, x, y1, y);
            (u2, u1, v2, v1) = (u1, u, v1, v);
        }

        Quad.Keep(mids[0], sides[0], mids[1], sides[1], x1, x2, y1, y2);
        Quad.Keep(mids[2], sides[2], mids[3], sides[3], u1, u2, v1, v2);
        Trail(mids, mid);
        Trail(sides, side);
    }

    // Each section a frame further than the one after it.
    private static void Lead(ReadOnlySpan<SectionState> a, ReadOnlySpan<double> samples)
    {
        a[0].Next(samples[0]);
        a[1].Next(a[0].Y1);
        a[2].Next(a[1].Y1);
        a[0].Next(samples[1]);
        a[1].Next(a[0].Y1);
        a[0].Next(samples[2]);
    }

    // The last frames go through the sections they have not been through.
    private static void Trail(ReadOnlySpan<SectionState> a, Span<double> samples)
    {
        samples[^3] = a[3].Next(a[2].Y1);
        a[2].Next(a[1].Y1);
        samples[^2] = a[3].Next(a[2].Y1);
        a[1].Next(a[0].Y1);
        a[2].Next(a[1].Y1);
        samples[^1] = a[3].Next(a[2].Y1);
    }

    /// <summary>Weights and memory of two sections of both roles, the first below.</summary>
    private readonly ref struct Quad
    {
        public readonly Vector256<double> B0, B1, B2, A1, A2, X1, X2, Y1, Y2;

        public Quad(SectionState ma, SectionState sa, SectionState mb, SectionState sb)
        {
            var (p, q, r, t) = (ma.Coefficients, sa.Coefficients, mb.Coefficients, sb.Coefficients);
            (B0, B1, B2) = (Vector256.Create(p.B0, q.B0, r.B0, t.B0), Vector256.Create(p.B1, q.B1, r.B1, t.B1), Vector256.Create(p.B2, q.B2, r.B2, t.B2));
            (A1, A2) = (Vector256.Create(p.A1, q.A1, r.A1, t.A1), Vector256.Create(p.A2, q.A2, r.A2, t.A2));
            (X1, X2) = (Vector256.Create(ma.X1, sa.X1, mb.X1, sb.X1), Vector256.Create(ma.X2, sa.X2, mb.X2, sb.X2));
            (Y1, Y2) = (Vector256.Create(ma.Y1, sa.Y1, mb.Y1, sb.Y1), Vector256.Create(ma.Y2, sa.Y2, mb.Y2, sb.Y2));
        }

        public static void Keep(SectionState ma, SectionState sa, SectionState mb, SectionState sb, Vector256<double> x1, Vector256<double> x2, Vector256<double> y1, Vector256<double> y2)
        {
            (ma.X1, ma.X2, ma.Y1, ma.Y2) = (x1[0], x2[0], y1[0], y2[0]);
            (sa.X1, sa.X2, sa.Y1, sa.Y2) = (x1[1], x2[1], y1[1], y2[1]);
            (mb.X1, mb.X2, mb.Y1, mb.Y2) = (x1[2], x2[2], y1[2], y2[2]);
            (sb.X1, sb.X2, sb.Y1, sb.Y2) = (x1[3], x2[3], y1[3], y2[3]);
        }
    }
}
