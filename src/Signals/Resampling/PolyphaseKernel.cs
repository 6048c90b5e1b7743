using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Signals.Resampling;

/// <summary>The inner loops: six output frames over one common stretch of input, for one channel or two.</summary>
/// <remarks>
/// Every sum has four partial sums, one for each input frame number modulo 4 counted from the start of the group, added up in one
/// fixed order; multiply-and-add rounds once, as IEEE 754 defines it. So the bits depend on neither the vector unit nor the
/// number of channels. Six outputs share each load of the input, and two channels each load of a coefficient. Nothing is called
/// after the loops: a call would make the native compiler keep every sum in memory instead of a register.
/// </remarks>
internal static class PolyphaseKernel
{
    /// <summary>Output frames in a group.</summary>
    public const int GroupSize = 6;

    /// <summary>Partial sums of each output.</summary>
    public const int Lanes = 4;

    /// <summary>One channel.</summary>
    /// <param name="input">The common stretch of input; a multiple of 4 frames.</param>
    /// <param name="coefficients">All rows.</param>
    /// <param name="rows">Where the coefficients of each of the six outputs start, for the first frame of the stretch.</param>
    /// <param name="sums">Receives the four partial sums of each output, 24 in all; see <see cref="Total"/>.</param>
    public static void One(ReadOnlySpan<double> input, ReadOnlySpan<double> coefficients, ReadOnlySpan<int> rows, Span<double> sums)
    {
        sums = sums[..(Lanes * GroupSize)];
        ref var x = ref MemoryMarshal.GetReference(input);
        ref var c = ref MemoryMarshal.GetReference(coefficients);
        nuint r0 = (nuint)rows[0], r1 = (nuint)rows[1], r2 = (nuint)rows[2], r3 = (nuint)rows[3], r4 = (nuint)rows[4], r5 = (nuint)rows[5];
        Vector256<double> a0 = default, a1 = default, a2 = default, a3 = default, a4 = default, a5 = default;
        for (nuint k = 0; k < (nuint)input.Length; k += 4)
        {
            var v = Vector256.LoadUnsafe(ref x, k);
            a0 = Vector256.FusedMultiplyAdd(v, Vector256.LoadUnsafe(ref c, r0 + k), a0);
            a1 = Vector256.FusedMultiplyAdd(v, Vector256.LoadUnsafe(ref c, r1 + k), a1);
            a2 = Vector256.FusedMultiplyAdd(v, Vector256.LoadUnsafe(ref c, r2 + k), a2);
            a3 = Vector256.FusedMultiplyAdd(v, Vector256.LoadUnsafe(ref c, r3 + k), a3);
            a4 = Vector256.FusedMultiplyAdd(v, Vector256.LoadUnsafe(ref c, r4 + k), a4);
            a5 = Vector256.FusedMultiplyAdd(v, Vector256.LoadUnsafe(ref c, r5 + k), a5);
        }

        ref var s = ref MemoryMarshal.GetReference(sums);
        a0.StoreUnsafe(ref s, 0);
        a1.StoreUnsafe(ref s, 4);
        a2.StoreUnsafe(ref s, 8);
        a3.StoreUnsafe(ref s, 12);
        a4.StoreUnsafe(ref s, 16);
        a5.StoreUnsafe(ref s, 20);
    }

    /// <summary>Two channels; spans as for one.</summary>
    public static void Two(ReadOnlySpan<double> first, ReadOnlySpan<double> second, ReadOnlySpan<double> coefficients, ReadOnlySpan<int> rows, Span<double> firstSums, Span<double> secondSums)
    {
        firstSums = firstSums[..(Lanes * GroupSize)];
        secondSums = secondSums[..(Lanes * GroupSize)];
        ref var x = ref MemoryMarshal.GetReference(first);
        ref var y = ref MemoryMarshal.GetReference(second[..first.Length]);
        ref var c = ref MemoryMarshal.GetReference(coefficients);
        nuint r0 = (nuint)rows[0], r1 = (nuint)rows[1], r2 = (nuint)rows[2], r3 = (nuint)rows[3], r4 = (nuint)rows[4], r5 = (nuint)rows[5];
        Vector256<double> a0 = default, a1 = default, a2 = default, a3 = default, a4 = default, a5 = default;
        Vector256<double> b0 = default, b1 = default, b2 = default, b3 = default, b4 = default, b5 = default;
        for (nuint k = 0; k < (nuint)first.Length; k += 4)
        {
            var v = Vector256.LoadUnsafe(ref x, k);
            var w = Vector256.LoadUnsafe(ref y, k);
            var h = Vector256.LoadUnsafe(ref c, r0 + k);
            a0 = Vector256.FusedMultiplyAdd(v, h, a0);
            b0 = Vector256.FusedMultiplyAdd(w, h, b0);
            h = Vector256.LoadUnsafe(ref c, r1 + k);
            a1 = Vector256.FusedMultiplyAdd(v, h, a1);
            b1 = Vector256.FusedMultiplyAdd(w, h, b1);
            h = Vector256.LoadUnsafe(ref c, r2 + k);
            a2 = Vector256.FusedMultiplyAdd(v, h, a2);
            b2 = Vector256.FusedMultiplyAdd(w, h, b2);
            h = Vector256.LoadUnsafe(ref c, r3 + k);
            a3 = Vector256.FusedMultiplyAdd(v, h, a3);
            b3 = Vector256.FusedMultiplyAdd(w, h, b3);
            h = Vector256.LoadUnsafe(ref c, r4 + k);
            a4 = Vector256.FusedMultiplyAdd(v, h, a4);
            b4 = Vector256.FusedMultiplyAdd(w, h, b4);
            h = Vector256.LoadUnsafe(ref c, r5 + k);
            a5 = Vector256.FusedMultiplyAdd(v, h, a5);
            b5 = Vector256.FusedMultiplyAdd(w, h, b5);
        }

        ref var s = ref MemoryMarshal.GetReference(firstSums);
        a0.StoreUnsafe(ref s, 0);
        a1.StoreUnsafe(ref s, 4);
        a2.StoreUnsafe(ref s, 8);
        a3.StoreUnsafe(ref s, 12);
        a4.StoreUnsafe(ref s, 16);
        a5.StoreUnsafe(ref s, 20);
        ref var t = ref MemoryMarshal.GetReference(secondSums);
        b0.StoreUnsafe(ref t, 0);
        b1.StoreUnsafe(ref t, 4);
        b2.StoreUnsafe(ref t, 8);
        b3.StoreUnsafe(ref t, 12);
        b4.StoreUnsafe(ref t, 16);
        b5.StoreUnsafe(ref t, 20);
    }

    /// <summary>The value of an output from its four partial sums, added in this order on every machine.</summary>
    public static double Total(ReadOnlySpan<double> sums, int output) =>
        (sums[Lanes * output] + sums[(Lanes * output) + 2]) + (sums[(Lanes * output) + 1] + sums[(Lanes * output) + 3]);
}
