using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Metering;

/// <summary>Sums of two channels and of their products; everything about level and correlation follows from them.</summary>
/// <remarks>The product of two floats is exact in double, so only the additions round.</remarks>
internal readonly record struct PairSums(double Frames, double First, double Second, double FirstSquared, double SecondSquared, double Product)
{
    /// <summary>Both stretches together.</summary>
    public static PairSums operator +(PairSums a, PairSums b) => new(
        a.Frames + b.Frames,
        a.First + b.First,
        a.Second + b.Second,
        a.FirstSquared + b.FirstSquared,
        a.SecondSquared + b.SecondSquared,
        a.Product + b.Product);

    /// <summary>Adds up one block; two spans of the same length.</summary>
    public static PairSums Of(ReadOnlySpan<float> first, ReadOnlySpan<float> second)
    {
        second = second[..first.Length];
        var whole = Vector256.IsHardwareAccelerated ? first.Length & ~7 : 0;
        var sums = whole > 0 ? Vectors(first[..whole], second[..whole]) : default;
        return sums + Scalars(first[whole..], second[whole..]);
    }

    private static PairSums Vectors(ReadOnlySpan<float> first, ReadOnlySpan<float> second)
    {
        ref var p = ref MemoryMarshal.GetReference(first);
        ref var q = ref MemoryMarshal.GetReference(second);
        var (x, y, xx, yy, xy) = (Vector256<double>.Zero, Vector256<double>.Zero, Vector256<double>.Zero, Vector256<double>.Zero, Vector256<double>.Zero);
        for (nuint i = 0; i < (nuint)first.Length; i += 8)
        {
            var (a0, a1) = Vector256.Widen(Vector256.LoadUnsafe(ref p, i));
            var (b0, b1) = Vector256.Widen(Vector256.LoadUnsafe(ref q, i));
            x += a0 + a1;
            y += b0 + b1;
            xx += (a0 * a0) + (a1 * a1);
            yy += (b0 * b0) + (b1 * b1);
            xy += (a0 * b0) + (a1 * b1);
        }

        return new(first.Length, Vector256.Sum(x), Vector256.Sum(y), Vector256.Sum(xx), Vector256.Sum(yy), Vector256.Sum(xy));
    }

    private static PairSums Scalars(ReadOnlySpan<float> first, ReadOnlySpan<float> second)
    {
        var (x, y, xx, yy, xy) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < first.Length; i++)
        {
            var (a, b) = ((double)first[i], (double)second[i]);
            x += a;
            y += b;
            xx += a * a;
            yy += b * b;
            xy += a * b;
        }

        return new(first.Length, x, y, xx, yy, xy);
    }
}
