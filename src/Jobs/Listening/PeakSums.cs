using System.Buffers.Binary;
using System.Numerics;
using System.Runtime.InteropServices;

namespace Athwart.Jobs.Listening;

/// <summary>Extremes and second moments of a stretch of mid and side; those of left and right are at side level 0 dB.</summary>
/// <remarks>
/// From the three moments the level of left and right and their correlation follow for any side level g:
/// ΣLL = ΣMM + 2g·ΣMS + g²·ΣSS, ΣRR with −2g, ΣLR = ΣMM − g²·ΣSS. Samples that are no number or infinite are left out.
/// </remarks>
internal struct PeakSums
{
    public float MidLow, MidHigh, SideLow, SideHigh, LeftLow, LeftHigh, RightLow, RightHigh;
    public double MidMid, SideSide, MidSide;
    public long Frames;

    /// <summary>Measures a stretch.</summary>
    /// <param name="mid">Mid, n samples.</param>
    /// <param name="side">Side, n samples.</param>
    public static PeakSums Of(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        side = side[..mid.Length];
        if (mid.IsEmpty)
            return default;
        var sums = mid.Length >= Vector<float>.Count ? Vectors(mid, side) : Scalars(mid, side);
        // A not-a-number spoils the sums of its stretch: measured again with care.
        return double.IsFinite(sums.MidMid) && double.IsFinite(sums.SideSide) ? sums : Scalars(mid, side);
    }

    /// <summary>Takes in the stretch that follows.</summary>
    public void Add(in PeakSums next)
    {
        if (Frames == 0)
        {
            this = next;
            return;
        }

        if (next.Frames == 0)
            return;
        (MidLow, MidHigh) = (Math.Min(MidLow, next.MidLow), Math.Max(MidHigh, next.MidHigh));
        (SideLow, SideHigh) = (Math.Min(SideLow, next.SideLow), Math.Max(SideHigh, next.SideHigh));
        (LeftLow, LeftHigh) = (Math.Min(LeftLow, next.LeftLow), Math.Max(LeftHigh, next.LeftHigh));
        (RightLow, RightHigh) = (Math.Min(RightLow, next.RightLow), Math.Max(RightHigh, next.RightHigh));
        MidMid += next.MidMid;
        SideSide += next.SideSide;
        MidSide += next.MidSide;
        Frames += next.Frames;
    }

    /// <summary>
    /// Eleven half-precision numbers, little-endian: lowest and highest of mid, side, left and right, root mean square of mid and
    /// of side, and their correlation −1 to 1 (0 where one is silent). Half precision errs by at most 1 part in 2048.
    /// </summary>
    public readonly void WriteTo(Span<byte> bin)
    {
        ReadOnlySpan<float> values =
        [
            MidLow, MidHigh, SideLow, SideHigh, LeftLow, LeftHigh, RightLow, RightHigh,
            Rms(MidMid), Rms(SideSide), Correlation,
        ];
        for (var i = 0; i < values.Length; i++)
            BinaryPrimitives.WriteHalfLittleEndian(bin[(2 * i)..], (Half)values[i]);
    }

    private readonly float Correlation
    {
        get
        {
            var product = Math.Sqrt(MidMid * SideSide);
            return product > 0 ? (float)Math.Clamp(MidSide / product, -1, 1) : 0;
        }
    }

    private readonly float Rms(double sum) => Frames == 0 ? 0 : (float)Math.Sqrt(sum / Frames);

    private static PeakSums Vectors(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        ref var m = ref MemoryMarshal.GetReference(mid);
        ref var s = ref MemoryMarshal.GetReference(side);
        var (ml, mh, sl, sh) = (new Vector<float>(mid[0]), new Vector<float>(mid[0]), new Vector<float>(side[0]), new Vector<float>(side[0]));
        var (ll, lh, rl, rh) = (ml + sl, mh + sh, ml - sl, mh - sh);
        Vector<float> mm = default, ss = default, ms = default;
        var n = 0;
        for (; n <= mid.Length - Vector<float>.Count; n += Vector<float>.Count)
        {
            var (x, y) = (Vector.LoadUnsafe(ref m, (nuint)n), Vector.LoadUnsafe(ref s, (nuint)n));
            var (left, right) = (x + y, x - y);
            (ml, mh, sl, sh) = (Vector.Min(ml, x), Vector.Max(mh, x), Vector.Min(sl, y), Vector.Max(sh, y));
            (ll, lh, rl, rh) = (Vector.Min(ll, left), Vector.Max(lh, left), Vector.Min(rl, right), Vector.Max(rh, right));
            mm += x * x;
            ss += y * y;
            ms += x * y;
        }

        var sums = new PeakSums
        {
            MidLow = Lowest(ml),
            MidHigh = Highest(mh),
            SideLow = Lowest(sl),
            SideHigh = Highest(sh),
            LeftLow = Lowest(ll),
            LeftHigh = Highest(lh),
            RightLow = Lowest(rl),
            RightHigh = Highest(rh),
            MidMid = Vector.Sum(mm),
            SideSide = Vector.Sum(ss),
            MidSide = Vector.Sum(ms),
            Frames = n,
        };
        sums.Add(Scalars(mid[n..], side[n..]));
        return sums;
    }

    private static PeakSums Scalars(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        var sums = default(PeakSums);
        for (var n = 0; n < mid.Length; n++)
        {
            var (m, s) = (Finite(mid[n]), Finite(side[n]));
            sums.Add(new()
            {
                MidLow = m,
                MidHigh = m,
                SideLow = s,
                SideHigh = s,
                LeftLow = m + s,
                LeftHigh = m + s,
                RightLow = m - s,
                RightHigh = m - s,
                MidMid = (double)m * m,
                SideSide = (double)s * s,
                MidSide = (double)m * s,
                Frames = 1,
            });
        }

        return sums;
    }

    private static float Finite(float sample) => float.IsFinite(sample) ? sample : 0;

    private static float Lowest(Vector<float> lanes)
    {
        var lowest = lanes[0];
        for (var i = 1; i < Vector<float>.Count; i++)
            lowest = Math.Min(lowest, lanes[i]);
        return lowest;
    }

    private static float Highest(Vector<float> lanes)
    {
        var highest = lanes[0];
        for (var i = 1; i < Vector<float>.Count; i++)
            highest = Math.Max(highest, lanes[i]);
        return highest;
    }
}
