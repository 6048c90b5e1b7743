using System.Numerics;
using System.Runtime.InteropServices;

namespace Athwart.Signals.Decoding;

/// <summary>The mid-side matrix for samples in floating point: left = mid + g·side, right = mid − g·side.</summary>
public static class MidSide
{
    /// <summary>Decodes one block: left = mid + g·side, right = mid − g·side.</summary>
    /// <param name="mid">Mid, n samples, full scale ±1.</param>
    /// <param name="side">Side, n samples, full scale ±1, positive lobe to the left (the +90° direction of ITU-R BS.1770).</param>
    /// <param name="sideGainLinear">g, an amplitude ratio; 1 is unity, 0 gives the mid twice, a negative one swaps left and right.</param>
    /// <param name="left">Receives n samples; may be <paramref name="mid"/> or <paramref name="side"/> itself.</param>
    /// <param name="right">Receives n samples; may be <paramref name="mid"/> or <paramref name="side"/> itself, but not <paramref name="left"/>.</param>
    /// <remarks>The product is rounded before the sum, in vectors and alone alike, so every machine gives the same bits. Not-a-number passes through.</remarks>
    /// <exception cref="ArgumentException">The lengths differ, or two spans overlap with a shift.</exception>
    public static void Decode(ReadOnlySpan<float> mid, ReadOnlySpan<float> side, float sideGainLinear, Span<float> left, Span<float> right) =>
        DecodeAny(mid, side, sideGainLinear, left, right);

    /// <inheritdoc cref="Decode(ReadOnlySpan{float}, ReadOnlySpan{float}, float, Span{float}, Span{float})"/>
    public static void Decode(ReadOnlySpan<double> mid, ReadOnlySpan<double> side, double sideGainLinear, Span<double> left, Span<double> right) =>
        DecodeAny(mid, side, sideGainLinear, left, right);

    private static void DecodeAny<T>(ReadOnlySpan<T> mid, ReadOnlySpan<T> side, T gain, Span<T> left, Span<T> right)
        where T : unmanaged, INumber<T>
    {
        SpanChecks.Matrix(mid, side, left, right);
        var n = 0;
        if (Vector.IsHardwareAccelerated)
        {
            ref var m = ref MemoryMarshal.GetReference(mid);
            ref var s = ref MemoryMarshal.GetReference(side);
            ref var l = ref MemoryMarshal.GetReference(left);
            ref var r = ref MemoryMarshal.GetReference(right);
            var factor = new Vector<T>(gain);
            for (; n <= mid.Length - Vector<T>.Count; n += Vector<T>.Count)
            {
                var centre = Vector.LoadUnsafe(ref m, (nuint)n);
                var product = factor * Vector.LoadUnsafe(ref s, (nuint)n);
                (centre + product).StoreUnsafe(ref l, (nuint)n);
                (centre - product).StoreUnsafe(ref r, (nuint)n);
            }
        }

        for (; n < mid.Length; n++)
        {
            var centre = mid[n];
            var product = gain * side[n];
            left[n] = centre + product;
            right[n] = centre - product;
        }
    }
}

/// <summary>What every matrix kernel asks of its spans.</summary>
internal static class SpanChecks
{
    /// <summary>Equal lengths, outputs apart from each other, and each output either apart from an input or that very span.</summary>
    public static void Matrix<T>(ReadOnlySpan<T> first, ReadOnlySpan<T> second, Span<T> third, Span<T> fourth)
    {
        if (second.Length != first.Length || third.Length != first.Length || fourth.Length != first.Length)
            throw new ArgumentException($"The four spans must be equally long, not {first.Length}, {second.Length}, {third.Length} and {fourth.Length}.", nameof(second));
        if (third.Overlaps(fourth))
            throw new ArgumentException("The two outputs overlap.", nameof(fourth));
        if (Shifted(first, third) || Shifted(first, fourth) || Shifted(second, third) || Shifted(second, fourth))
            throw new ArgumentException("An output overlaps an input with a shift; pass the very span of the input, or one apart from it.", nameof(third));
    }

    private static bool Shifted<T>(ReadOnlySpan<T> input, Span<T> output) => input.Overlaps(output, out var offset) && offset != 0;
}
