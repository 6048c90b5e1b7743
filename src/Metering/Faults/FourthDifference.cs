using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Metering.Faults;

/// <summary>x[n−4] − 4·x[n−3] + 6·x[n−2] − 4·x[n−1] + x[n]: small for what is smooth (24 dB an octave), 6 for a single sample of 1.</summary>
internal static class FourthDifference
{
    /// <summary>Largest magnitude and mean magnitude over 64 samples; the span begins four samples before the first.</summary>
    public static (float Largest, float Mean) Of(ReadOnlySpan<float> x)
    {
        if (!Vector256.IsHardwareAccelerated)
            return Scalar(x);
        ref var p = ref MemoryMarshal.GetReference(x[..(SampleWindow.SubBlock + 4)]);
        var (largest, sum) = (Vector256<float>.Zero, Vector256<float>.Zero);
        for (nuint i = 0; i < SampleWindow.SubBlock; i += 8)
        {
            var outer = Vector256.LoadUnsafe(ref p, i) + Vector256.LoadUnsafe(ref p, i + 4);
            var inner = Vector256.LoadUnsafe(ref p, i + 1) + Vector256.LoadUnsafe(ref p, i + 3);
            var bend = Vector256.Abs(outer - (inner * 4f) + (Vector256.LoadUnsafe(ref p, i + 2) * 6f));
            largest = Vector256.MaxNative(largest, bend);
            sum += bend;
        }

        var most = 0f;
        for (var i = 0; i < 8; i++)
            most = MathF.Max(most, largest[i]);
        return (most, Vector256.Sum(sum) / SampleWindow.SubBlock);
    }

    /// <summary>The magnitude at one sample, centred on it.</summary>
    public static float At(ReadOnlySpan<float> x, int n) => MathF.Abs(x[n - 2] + x[n + 2] - (4 * (x[n - 1] + x[n + 1])) + (6 * x[n]));

    private static (float Largest, float Mean) Scalar(ReadOnlySpan<float> x)
    {
        var (largest, sum) = (0f, 0f);
        for (var i = 0; i < SampleWindow.SubBlock; i++)
        {
            var bend = At(x, i + 2);
            largest = MathF.Max(largest, bend);
            sum += bend;
        }

        return (largest, sum / SampleWindow.SubBlock);
    }
}
