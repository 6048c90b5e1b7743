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

        Store(output, a0, a1, a2, a3, a4, a5);
    }

    /// <summary>Two channels; the length is a multiple of 4.</summary>
    public static void Two(ReadOnlySpan<double> first, ReadOnlySpan<double> second, ReadOnlySpan<double> coefficients, in Rows rows, Span<double> firstOutput, Span<double> secondOutput)
    {
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

        Store(firstOutput, a0, a1, a2, a3, a4, a5);
        Store(secondOutput, b0, b1, b2, b3, b4, b5);
    }

    private static void Store(Span<double> output, Vector256<double> a0, Vector256<double> a1, Vector256<double> a2, Vector256<double> a3, Vector256<double> a4, Vector256<double> a5)
    {
        output[5] = Total(a5);
        output[4] = Total(a4);
        output[3] = Total(a3);
        output[2] = Total(a2);
        output[1] = Total(a1);
        output[0] = Total(a0);
    }

    // In this order on every machine.
    private static double Total(Vector256<double> sums) => (sums[0] + sums[2]) + (sums[1] + sums[3]);
}
