using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Recordings;

/// <summary>The hot path: 24-bit words, one or two channels, four frames at a time in 128-bit vectors.</summary>
/// <remarks>
/// A word is moved into the upper three bytes of an int and shifted down arithmetically, which extends its sign.
/// Each method does as many frames as its vectors reach and returns their number; the caller finishes with scalar code, to the same bits.
/// </remarks>
internal static class Packed24
{
    private const float Scale = 1f / (1 << 23);

    /// <summary>Whether byte shuffles are one instruction here.</summary>
    private static bool IsFast => Vector128.IsHardwareAccelerated && BitConverter.IsLittleEndian;

    /// <summary>Two interleaved channels to two planes.</summary>
    /// <returns>The frames done.</returns>
    public static int Deinterleave<T>(ReadOnlySpan<byte> bytes, Span<T> left, Span<T> right)
        where T : unmanaged
    {
        if (!IsFast)
            return 0;
        // Frames 0 and 1 are the first 12 of 16 bytes, frames 2 and 3 the last 12 of 16 that begin 8 later. 0xFF picks zero.
        var leftLow = Vector128.Create((byte)0xFF, 0, 1, 2, 0xFF, 6, 7, 8, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF);
        var leftHigh = Vector128.Create((byte)0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 4, 5, 6, 0xFF, 10, 11, 12);
        var rightLow = Vector128.Create((byte)0xFF, 3, 4, 5, 0xFF, 9, 10, 11, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF);
        var rightHigh = Vector128.Create((byte)0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 7, 8, 9, 0xFF, 13, 14, 15);
        ref var source = ref MemoryMarshal.GetReference(bytes);
        var frames = Math.Min(bytes.Length / 6, Math.Min(left.Length, right.Length)) & ~3;
        for (var i = 0; i < frames; i += 4)
        {
            var a = Vector128.LoadUnsafe(ref source, (nuint)(i * 6));
            var b = Vector128.LoadUnsafe(ref source, (nuint)((i * 6) + 8));
            Store((Vector128.Shuffle(a, leftLow) | Vector128.Shuffle(b, leftHigh)).AsInt32() >> 8, left, i);
            Store((Vector128.Shuffle(a, rightLow) | Vector128.Shuffle(b, rightHigh)).AsInt32() >> 8, right, i);
        }

        return frames;
    }

    /// <summary>One channel.</summary>
    /// <returns>The frames done.</returns>
    public static int Expand<T>(ReadOnlySpan<byte> bytes, Span<T> plane)
        where T : unmanaged
    {
        if (!IsFast || bytes.Length < 16)
            return 0;
        var spread = Vector128.Create((byte)0xFF, 0, 1, 2, 0xFF, 3, 4, 5, 0xFF, 6, 7, 8, 0xFF, 9, 10, 11);
        ref var source = ref MemoryMarshal.GetReference(bytes);
        // Each load takes 16 bytes and uses 12, so the last four bytes must lie inside too.
        var frames = Math.Min((bytes.Length - 4) / 3, plane.Length) & ~3;
        for (var i = 0; i < frames; i += 4)
            Store(Vector128.Shuffle(Vector128.LoadUnsafe(ref source, (nuint)(i * 3)), spread).AsInt32() >> 8, plane, i);
        return frames;
    }

    /// <summary>Two planes of steps to interleaved words.</summary>
    /// <param name="left">n steps.</param>
    /// <param name="right">n steps.</param>
    /// <param name="bytes">Receives 6n bytes.</param>
    /// <param name="fits">False when a step was beyond 24 bits; the words are then worthless.</param>
    /// <returns>The frames done.</returns>
    public static int Interleave(ReadOnlySpan<int> left, ReadOnlySpan<int> right, Span<byte> bytes, out bool fits)
    {
        fits = true;
        if (!IsFast || bytes.Length < 28)
            return 0;
        var leftFirst = Vector128.Create((byte)0, 1, 2, 0xFF, 0xFF, 0xFF, 4, 5, 6, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF);
        var rightFirst = Vector128.Create((byte)0xFF, 0xFF, 0xFF, 0, 1, 2, 0xFF, 0xFF, 0xFF, 4, 5, 6, 0xFF, 0xFF, 0xFF, 0xFF);
        var leftSecond = Vector128.Create((byte)8, 9, 10, 0xFF, 0xFF, 0xFF, 12, 13, 14, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF);
        var rightSecond = Vector128.Create((byte)0xFF, 0xFF, 0xFF, 8, 9, 10, 0xFF, 0xFF, 0xFF, 12, 13, 14, 0xFF, 0xFF, 0xFF, 0xFF);
        ref var target = ref MemoryMarshal.GetReference(bytes);
        ref var l = ref MemoryMarshal.GetReference(left);
        ref var r = ref MemoryMarshal.GetReference(right);
        // The second store of a round reaches 4 bytes past its 24; the next round, or scalar code, writes over them.
        var frames = Math.Min((bytes.Length - 4) / 6, Math.Min(left.Length, right.Length)) & ~3;
        var beyond = Vector128<int>.Zero;
        for (var i = 0; i < frames; i += 4)
        {
            var a = Vector128.LoadUnsafe(ref l, (nuint)i);
            var b = Vector128.LoadUnsafe(ref r, (nuint)i);
            beyond |= (a ^ ((a << 8) >> 8)) | (b ^ ((b << 8) >> 8));
            var (x, y) = (a.AsByte(), b.AsByte());
            (Vector128.Shuffle(x, leftFirst) | Vector128.Shuffle(y, rightFirst)).StoreUnsafe(ref target, (nuint)(i * 6));
            (Vector128.Shuffle(x, leftSecond) | Vector128.Shuffle(y, rightSecond)).StoreUnsafe(ref target, (nuint)((i * 6) + 12));
        }

        fits = beyond == Vector128<int>.Zero;
        return frames;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store<T>(Vector128<int> steps, Span<T> plane, int at)
        where T : unmanaged
    {
        ref var target = ref MemoryMarshal.GetReference(plane);
        if (typeof(T) == typeof(float))
        {
            (Vector128.ConvertToSingle(steps) * Scale).AsByte().StoreUnsafe(ref Unsafe.As<T, byte>(ref target), (nuint)(at * 4));
        }
        else if (typeof(T) == typeof(int))
        {
            steps.AsByte().StoreUnsafe(ref Unsafe.As<T, byte>(ref target), (nuint)(at * 4));
        }
        else
        {
            var (low, high) = Vector128.Widen(steps);
            (Vector128.ConvertToDouble(low) * Scale).AsByte().StoreUnsafe(ref Unsafe.As<T, byte>(ref target), (nuint)(at * 8));
            (Vector128.ConvertToDouble(high) * Scale).AsByte().StoreUnsafe(ref Unsafe.As<T, byte>(ref target), (nuint)((at * 8) + 16));
        }
    }
}
