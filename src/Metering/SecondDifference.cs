using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Metering;

/// <summary>Σ (x[n] − 2·x[n−1] + x[n−2])²: an energy that counts high frequencies most.</summary>
internal static class SecondDifference
{
    /// <summary>The energy of a block; 0 below three samples.</summary>
    public static float Energy(ReadOnlySpan<float> x)
    {
        var (sum, i) = (0f, 0);
        if (Vector256.IsHardwareAccelerated && x.Length >= 10)
        {
            ref var start = ref MemoryMarshal.GetReference(x);
            var eight = Vector256<float>.Zero;
            for (; i + 10 <= x.Length; i += 8)
            {
                var middle = Vector256.LoadUnsafe(ref start, (nuint)i + 1);
                var bend = Vector256.LoadUnsafe(ref start, (nuint)i) + Vector256.LoadUnsafe(ref start, (nuint)i + 2) - (middle + middle);
                eight += bend * bend;
            }

            sum = Vector256.Sum(eight);
        }

        for (; i + 3 <= x.Length; i++)
        {
            var bend = x[i] + x[i + 2] - (x[i + 1] + x[i + 1]);
            sum += bend * bend;
        }

        return sum;
    }
}
