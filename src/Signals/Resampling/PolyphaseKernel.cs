using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Signals.Resampling;

/// <summary>The inner loops: six output frames over one common stretch of input, for one channel or two.</summary>
/// <remarks>
/// Every sum has four partial sums, one for each input frame number modulo 4 counted from the start of the group, added up in one
/// fixed order; multiply-and-add rounds once, as IEEE 754 defines it. So the bits depend on neither the vector unit nor the
/// number of channels. Six outputs share each load of the input, and two channels each load of a coefficient.
/// </remarks>
internal static class PolyphaseKernel
{
    /// <summary>Output frames in a group.</summary>
    public const int GroupSize = 6;

    /// <summary>Where the coefficients of each output of a group start, for the first input frame of the group.</summary>
    [InlineArray(GroupSize)]
    public struct Rows
    {
        private int _first;
    }

    /// <summary>One channel; the length is a multiple of 4.</summary>
    public static void One(ReadOnlySpan<double> input, ReadOnlySpan<double> coefficients, in Rows rows, Span<double> output)
    {
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

        Span<double> sums = stackalloc double[4 * GroupSize];
        Keep(ref MemoryMarshal.GetReference(sums), a0, a1, a2, a3, a4, a5);
        Total(sums, output);
    }

    /// <summary>Two channels; the length is a multiple of 4.</summary>
    public static void Two(ReadOnlySpan<double> first, ReadOnlySpan<double> second, ReadOnlySpan<double> coefficients, in Rows rows, Span<double> firstOutput, Span<double> secondOutput)
    {
        ref var x = ref MemoryMarshal.GetReference(first);
        ref var y = ref MemoryMarshal.GetReference(second[..first.Length]);
        Span<double> sums = stackalloc double[8 * GroupSize];
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

        Keep(ref MemoryMarshal.GetReference(sums), a0, a1, a2, a3, a4, a5);
        Keep(ref Unsafe.Add(ref MemoryMarshal.GetReference(sums), 4 * GroupSize), b0, b1, b2, b3, b4, b5);
        Total(sums[..(4 * GroupSize)], firstOutput);
        Total(sums[(4 * GroupSize)..], secondOutput);
    }

    // The sums go to memory before anything is called: a call while they are live would keep them out of registers in the loop.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Keep(ref double sums, Vector256<double> a0, Vector256<double> a1, Vector256<double> a2, Vector256<double> a3, Vector256<double> a4, Vector256<double> a5)
    {
        a0.StoreUnsafe(ref sums, 0);
        a1.StoreUnsafe(ref sums, 4);
        a2.StoreUnsafe(ref sums, 8);
        a3.StoreUnsafe(ref sums, 12);
        a4.StoreUnsafe(ref sums, 16);
        a5.StoreUnsafe(ref sums, 20);
    }

    // In this order on every machine.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static void Total(ReadOnlySpan<double> sums, Span<double> output)
    {
        for (var o = 0; o < GroupSize; o++)
            output[o] = (sums[4 * o] + sums[(4 * o) + 2]) + (sums[(4 * o) + 1] + sums[(4 * o) + 3]);
    }
}
