using System.Numerics;
using System.Runtime.InteropServices;

namespace Athwart.Metering;

/// <summary>Lays a window over samples before a transform.</summary>
internal static class Windowing
{
    /// <summary>product[n] = samples[n]·window[n]; three spans of one length.</summary>
    public static void Apply(ReadOnlySpan<float> samples, ReadOnlySpan<float> window, Span<float> product)
    {
        window = window[..samples.Length];
        product = product[..samples.Length];
        ref var x = ref MemoryMarshal.GetReference(samples);
        ref var w = ref MemoryMarshal.GetReference(window);
        ref var y = ref MemoryMarshal.GetReference(product);
        var n = 0;
        for (; n <= samples.Length - Vector<float>.Count; n += Vector<float>.Count)
            (Vector.LoadUnsafe(ref x, (nuint)n) * Vector.LoadUnsafe(ref w, (nuint)n)).StoreUnsafe(ref y, (nuint)n);
        for (; n < samples.Length; n++)
            product[n] = samples[n] * window[n];
    }
}
