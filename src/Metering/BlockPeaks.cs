using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Metering;

/// <summary>Largest magnitudes of the sub-blocks of a block.</summary>
internal static class BlockPeaks
{
    /// <summary>Fills in max |x| of each sub-block of 64 and returns the largest of all; 0 at length 0.</summary>
    /// <param name="block">Samples, a multiple of 64; padded with zeros when the block is shorter.</param>
    /// <param name="peaks">Receives one value for each sub-block.</param>
    public static float Fill(ReadOnlySpan<float> block, Span<float> peaks)
    {
        var largest = 0f;
        for (var b = 0; b < block.Length / SampleWindow.SubBlock; b++)
        {
            var peak = Peak(block.Slice(b * SampleWindow.SubBlock, SampleWindow.SubBlock));
            peaks[b] = peak;
            largest = Math.Max(largest, peak);
        }

        return largest;
    }

    private static float Peak(ReadOnlySpan<float> samples)
    {
        if (!Vector256.IsHardwareAccelerated)
            return Scalar(samples);
        ref var start = ref MemoryMarshal.GetReference(samples);
        var (a, b) = (Vector256<float>.Zero, Vector256<float>.Zero);
        for (nuint i = 0; i < SampleWindow.SubBlock; i += 16)
        {
            a = Vector256.MaxNative(a, Vector256.Abs(Vector256.LoadUnsafe(ref start, i)));
            b = Vector256.MaxNative(b, Vector256.Abs(Vector256.LoadUnsafe(ref start, i + 8)));
        }

        a = Vector256.MaxNative(a, b);
        var four = Vector128.MaxNative(a.GetLower(), a.GetUpper());
        var two = Vector128.MaxNative(four, Vector128.Shuffle(four, Vector128.Create(2, 3, 0, 1)));
        return MathF.Max(two[0], two[1]);
    }

    private static float Scalar(ReadOnlySpan<float> samples)
    {
        var peak = 0f;
        foreach (var x in samples)
            peak = MathF.Max(peak, MathF.Abs(x));
        return peak;
    }
}
