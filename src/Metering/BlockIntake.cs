using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Metering;

/// <summary>Copies samples into a working buffer and takes out what is no number, so that one bad sample cannot spoil a whole take.</summary>
internal static class BlockIntake
{
    /// <summary>Magnitudes beyond this, +180 dBFS, are no sound and count as not finite.</summary>
    public const float Absurd = 1e9f;

    /// <summary>Copies n samples, not-finite ones as 0, and returns how many those were.</summary>
    public static int Copy(ReadOnlySpan<float> from, Span<float> to)
    {
        from.CopyTo(to);
        to = to[..from.Length];
        return AllSound(to) ? 0 : Clean(to);
    }

    /// <summary>left = mid + g·side, right = mid − g·side; spans of one length, not overlapping.</summary>
    public static void Decode(ReadOnlySpan<float> mid, ReadOnlySpan<float> side, float sideGain, Span<float> left, Span<float> right)
    {
        side = side[..mid.Length];
        left = left[..mid.Length];
        right = right[..mid.Length];
        var i = 0;
        if (Vector256.IsHardwareAccelerated)
        {
            ref var m = ref MemoryMarshal.GetReference(mid);
            ref var s = ref MemoryMarshal.GetReference(side);
            ref var l = ref MemoryMarshal.GetReference(left);
            ref var r = ref MemoryMarshal.GetReference(right);
            for (; i + 8 <= mid.Length; i += 8)
            {
                var middle = Vector256.LoadUnsafe(ref m, (nuint)i);
                var wide = Vector256.LoadUnsafe(ref s, (nuint)i) * sideGain;
                (middle + wide).StoreUnsafe(ref l, (nuint)i);
                (middle - wide).StoreUnsafe(ref r, (nuint)i);
            }
        }

        for (; i < mid.Length; i++)
        {
            var wide = side[i] * sideGain;
            (left[i], right[i]) = (mid[i] + wide, mid[i] - wide);
        }
    }

    private static bool AllSound(ReadOnlySpan<float> samples)
    {
        var i = 0;
        if (Vector256.IsHardwareAccelerated)
        {
            ref var start = ref MemoryMarshal.GetReference(samples);
            var limit = Vector256.Create(Absurd);
            for (; i + 8 <= samples.Length; i += 8)
            {
                // A comparison with a NaN is false.
                if (!Vector256.LessThanOrEqualAll(Vector256.Abs(Vector256.LoadUnsafe(ref start, (nuint)i)), limit))
                    return false;
            }
        }

        for (; i < samples.Length; i++)
        {
            if (!(MathF.Abs(samples[i]) <= Absurd))
                return false;
        }

        return true;
    }

    private static int Clean(Span<float> samples)
    {
        var count = 0;
        foreach (ref var sample in samples)
        {
            if (!(MathF.Abs(sample) <= Absurd))
                (sample, count) = (0, count + 1);
        }

        return count;
    }
}
