using System.Numerics;
using System.Runtime.InteropServices;

namespace Athwart.Metering;

/// <summary>|first| + |second|, which is zero only where both are.</summary>
internal static class BothMagnitudes
{
    /// <summary>Fills in n sums; the target may not overlap.</summary>
    public static void Add(ReadOnlySpan<float> first, ReadOnlySpan<float> second, Span<float> sums)
    {
        var a = MemoryMarshal.Cast<float, Vector<float>>(first);
        var b = MemoryMarshal.Cast<float, Vector<float>>(second);
        var t = MemoryMarshal.Cast<float, Vector<float>>(sums);
        for (var i = 0; i < t.Length; i++)
            t[i] = Vector.Abs(a[i]) + Vector.Abs(b[i]);
        for (var i = t.Length * Vector<float>.Count; i < sums.Length; i++)
            sums[i] = MathF.Abs(first[i]) + MathF.Abs(second[i]);
    }
}
