using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using Athwart.Signals.Dither;

namespace Athwart.Signals.Decoding;

/// <summary>The mid-side matrix on integer words that keeps the mono fold exact: (left + right) / 2 is the mid to the bit.</summary>
/// <remarks>
/// Only the product is rounded: x = round(g·side + dither), halves to even, then left = mid + x and right = mid − x, so that
/// left + right = 2·mid always, and x = (left − right) / 2 comes back without loss. Vectors and plain code give the same bits.
/// </remarks>
public static class ExactMidSide
{
    private const int Run = 512;

    /// <summary>Decodes one block.</summary>
    /// <param name="mid">Mid, n samples in steps of the word.</param>
    /// <param name="side">Side, n samples in the same steps, positive lobe to the left.</param>
    /// <param name="sideGain">g, an amplitude ratio from −2^20 to 2^20.</param>
    /// <param name="dither">Dither of ±1 step for the product, or null: a whole g makes whole products that need none.</param>
    /// <param name="firstFrame">The frame number of the first sample, for the dither.</param>
    /// <param name="left">Receives n samples; may be mid or side itself.</param>
    /// <param name="right">Receives n samples; may be mid or side itself, not <paramref name="left"/>.</param>
    /// <returns>The extremes of left and right together, exact even where 32 bits overflow; there the output is held at the ends.</returns>
    /// <exception cref="ArgumentException">The lengths differ, spans overlap with a shift, or the gain is out of range.</exception>
    public static ExactPeak Decode(ReadOnlySpan<int> mid, ReadOnlySpan<int> side, double sideGain, TriangularDither? dither, long firstFrame, Span<int> left, Span<int> right)
    {
        SpanChecks.Matrix(mid, side, left, right);
        if (!(Math.Abs(sideGain) <= 1 << 20))
            throw new ArgumentOutOfRangeException(nameof(sideGain), sideGain, "The side gain lies within ±2^20.");
        Span<int> units = stackalloc int[Run];
        units.Clear();
        var peak = ExactPeak.None;
        for (var n = 0; n < mid.Length; n += Run)
        {
            var count = Math.Min(Run, mid.Length - n);
            dither?.FillUnits(firstFrame + n, units[..count]);
            peak = peak.And(DecodeRun(mid.Slice(n, count), side.Slice(n, count), sideGain, units[..count], left.Slice(n, count), right.Slice(n, count)));
        }

        return peak;
    }

    /// <summary>Gets the raw pair back: mid = (left + right) / 2, side = round((x − dither) / g) with x = (left − right) / 2.</summary>
    /// <param name="left">Left, n samples, as <see cref="Decode"/> wrote them.</param>
    /// <param name="right">Right, n samples.</param>
    /// <param name="sideGain">The g of the decode; not 0.</param>
    /// <param name="dither">The dither of the decode, or null if it had none.</param>
    /// <param name="firstFrame">The frame number of the first sample.</param>
    /// <param name="mid">Receives the mid, exact; may be left or right itself.</param>
    /// <param name="side">Receives the side; may be left or right itself.</param>
    /// <remarks>
    /// Rounding moved x by at most half a step, so the quotient lies within 0.5/|g| steps of the side: exact for |g| &gt; 1 (and for
    /// |g| = 1 without dither), within one step for |g| &gt; 1/3, and in general within ⌊0.5 + 0.5/|g|⌋ steps.
    /// </remarks>
    /// <returns>How many frames had an odd sum, which no decode writes: 0 for an untouched file.</returns>
    public static long Recover(ReadOnlySpan<int> left, ReadOnlySpan<int> right, double sideGain, TriangularDither? dither, long firstFrame, Span<int> mid, Span<int> side)
    {
        SpanChecks.Matrix(left, right, mid, side);
        ArgumentOutOfRangeException.ThrowIfZero(sideGain);
        Span<int> units = stackalloc int[Run];
        units.Clear();
        long odd = 0;
        for (var n = 0; n < left.Length; n++)
        {
            if (n % Run == 0)
                dither?.FillUnits(firstFrame + n, units[..Math.Min(Run, left.Length - n)]);
            long sum = (long)left[n] + right[n], difference = (long)left[n] - right[n];
            odd += sum & 1;
            mid[n] = (int)(sum >> 1);
            var quotient = ((difference / 2.0) - (units[n % Run] * (1 / TriangularDither.UnitsPerStep))) / sideGain;
            side[n] = Saturate(Math.Round(quotient, MidpointRounding.ToEven));
        }

        return odd;
    }

    private static ExactPeak DecodeRun(ReadOnlySpan<int> mid, ReadOnlySpan<int> side, double gain, ReadOnlySpan<int> units, Span<int> left, Span<int> right)
    {
        if (!Avx2.IsSupported || !StaysInWord(mid, side, gain))
            return DecodeScalar(mid, side, gain, units, left, right);
        var peak = DecodeVectors(mid, side, gain, units, left, right, out var done);
        return peak.And(DecodeScalar(mid[done..], side[done..], gain, units[done..], left[done..], right[done..]));
    }

    private static ExactPeak DecodeScalar(ReadOnlySpan<int> mid, ReadOnlySpan<int> side, double gain, ReadOnlySpan<int> units, Span<int> left, Span<int> right)
    {
        long lowest = long.MaxValue, highest = long.MinValue;
        for (var n = 0; n < mid.Length; n++)
        {
            long centre = mid[n];
            var x = (long)Math.Round((gain * side[n]) + (units[n] * (1 / TriangularDither.UnitsPerStep)), MidpointRounding.ToEven);
            long l = centre + x, r = centre - x;
            lowest = Math.Min(lowest, Math.Min(l, r));
            highest = Math.Max(highest, Math.Max(l, r));
            left[n] = Saturate(l);
            right[n] = Saturate(r);
        }

        return new(lowest, highest);
    }

    private static ExactPeak DecodeVectors(ReadOnlySpan<int> mid, ReadOnlySpan<int> side, double gain, ReadOnlySpan<int> units, Span<int> left, Span<int> right, out int done)
    {
        ref var m = ref MemoryMarshal.GetReference(mid);
        ref var s = ref MemoryMarshal.GetReference(side);
        ref var u = ref MemoryMarshal.GetReference(units);
        ref var l = ref MemoryMarshal.GetReference(left);
        ref var r = ref MemoryMarshal.GetReference(right);
        Vector256<double> factor = Vector256.Create(gain), step = Vector256.Create(1 / TriangularDither.UnitsPerStep);
        Vector256<int> low = Vector256.Create(int.MaxValue), high = Vector256.Create(int.MinValue);
        for (done = 0; done <= mid.Length - 8; done += 8)
        {
            var at = (nuint)done;
            var first = Product(Vector128.LoadUnsafe(ref s, at), Vector128.LoadUnsafe(ref u, at), factor, step);
            var second = Product(Vector128.LoadUnsafe(ref s, at + 4), Vector128.LoadUnsafe(ref u, at + 4), factor, step);
            var x = Vector256.Create(first, second);
            var centre = Vector256.LoadUnsafe(ref m, at);
            Vector256<int> sum = centre + x, difference = centre - x;
            low = Vector256.Min(low, Vector256.Min(sum, difference));
            high = Vector256.Max(high, Vector256.Max(sum, difference));
            sum.StoreUnsafe(ref l, at);
            difference.StoreUnsafe(ref r, at);
        }

        return done == 0 ? ExactPeak.None : Extremes(low, high);
    }

    // round(g·side + dither); the conversion rounds halves to even.
    private static Vector128<int> Product(Vector128<int> side, Vector128<int> units, Vector256<double> factor, Vector256<double> step) =>
        Avx.ConvertToVector128Int32((Avx.ConvertToVector256Double(side) * factor) + (Avx.ConvertToVector256Double(units) * step));

    // Whether no intermediate can leave 32 bits, judged by the largest bits of this run.
    private static bool StaysInWord(ReadOnlySpan<int> mid, ReadOnlySpan<int> side, double gain) =>
        (Math.Abs(gain) * Bound(side)) + Bound(mid) + 2 < int.MaxValue;

    private static double Bound(ReadOnlySpan<int> samples)
    {
        var bits = Vector256<int>.Zero;
        ref var source = ref MemoryMarshal.GetReference(samples);
        var n = 0;
        for (; n <= samples.Length - 8; n += 8)
        {
            var value = Vector256.LoadUnsafe(ref source, (nuint)n);
            bits |= value ^ (value >> 31);             // the magnitude, less one step where negative
        }

        var all = 0;
        for (var lane = 0; lane < 8; lane++)
            all |= bits[lane];
        for (; n < samples.Length; n++)
            all |= samples[n] ^ (samples[n] >> 31);
        return all + 1.0;
    }

    private static ExactPeak Extremes(Vector256<int> low, Vector256<int> high)
    {
        var peak = ExactPeak.None;
        for (var lane = 0; lane < 8; lane++)
            peak = peak.And(new(low[lane], high[lane]));
        return peak;
    }

    private static int Saturate(double value) => value <= int.MinValue ? int.MinValue : value >= int.MaxValue ? int.MaxValue : (int)value;

    private static int Saturate(long value) => (int)Math.Clamp(value, int.MinValue, int.MaxValue);
}
