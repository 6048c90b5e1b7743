using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Athwart.Recordings;

/// <summary>The hot path: 24-bit words, one or two channels, eight frames at a time with AVX2, four in 128-bit vectors elsewhere.</summary>
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
        var done = Avx2.IsSupported ? DeinterleaveWide(bytes, left, right) : 0;
        var frames = Math.Min(bytes.Length / 6, Math.Min(left.Length, right.Length)) & ~3;
        for (var i = done; i < frames; i += 4)
        {
            var a = Vector128.LoadUnsafe(ref source, (nuint)(i * 6));
            var b = Vector128.LoadUnsafe(ref source, (nuint)((i * 6) + 8));
            Store((Vector128.Shuffle(a, leftLow) | Vector128.Shuffle(b, leftHigh)).AsInt32() >> 8, left, i);
            Store((Vector128.Shuffle(a, rightLow) | Vector128.Shuffle(b, rightHigh)).AsInt32() >> 8, right, i);
        }

        return frames;
    }

    // Two frames a lane: L0 L1 R0 R1; the lanes of two loads are then sorted into planes.
    private static int DeinterleaveWide<T>(ReadOnlySpan<byte> bytes, Span<T> left, Span<T> right)
        where T : unmanaged
    {
        var spread = Vector256.Create(Vector128.Create((byte)0xFF, 0, 1, 2, 0xFF, 6, 7, 8, 0xFF, 3, 4, 5, 0xFF, 9, 10, 11));
        ref var source = ref MemoryMarshal.GetReference(bytes);
        // The last load of a round reaches 4 bytes past its 48.
        var frames = Math.Min((bytes.Length - 4) / 6, Math.Min(left.Length, right.Length)) & ~7;
        for (var i = 0; i < frames; i += 8)
        {
            var at = (nuint)(i * 6);
            var a = Avx2.Shuffle(Vector256.Create(Vector128.LoadUnsafe(ref source, at), Vector128.LoadUnsafe(ref source, at + 12)), spread).AsInt64();
            var b = Avx2.Shuffle(Vector256.Create(Vector128.LoadUnsafe(ref source, at + 24), Vector128.LoadUnsafe(ref source, at + 36)), spread).AsInt64();
            StoreWide(Avx2.ShiftRightArithmetic(Avx2.Permute4x64(Avx2.UnpackLow(a, b), 0b11_01_10_00).AsInt32(), 8), left, i);
            StoreWide(Avx2.ShiftRightArithmetic(Avx2.Permute4x64(Avx2.UnpackHigh(a, b), 0b11_01_10_00).AsInt32(), 8), right, i);
        }

        return Math.Max(frames, 0);
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
        var done = 0;
        if (Avx2.IsSupported)
        {
            done = InterleaveWide(left, right, bytes, out var wide);
            beyond = wide.GetLower() | wide.GetUpper();
        }

        for (var i = done; i < frames; i += 4)
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

    private static int InterleaveWide(ReadOnlySpan<int> left, ReadOnlySpan<int> right, Span<byte> bytes, out Vector256<int> beyond)
    {
        var pack = Vector256.Create(Vector128.Create((byte)0, 1, 2, 4, 5, 6, 8, 9, 10, 12, 13, 14, 0xFF, 0xFF, 0xFF, 0xFF));
        ref var target = ref MemoryMarshal.GetReference(bytes);
        ref var l = ref MemoryMarshal.GetReference(left);
        ref var r = ref MemoryMarshal.GetReference(right);
        var frames = Math.Min((bytes.Length - 4) / 6, Math.Min(left.Length, right.Length)) & ~7;
        beyond = Vector256<int>.Zero;
        for (var i = 0; i < frames; i += 8)
        {
            var a = Vector256.LoadUnsafe(ref l, (nuint)i);
            var b = Vector256.LoadUnsafe(ref r, (nuint)i);
            beyond |= (a ^ ((a << 8) >> 8)) | (b ^ ((b << 8) >> 8));
            // Frames 0 1 and 4 5, frames 2 3 and 6 7: two a lane, 12 bytes each.
            var first = Avx2.Shuffle(Avx2.UnpackLow(a, b).AsByte(), pack);
            var second = Avx2.Shuffle(Avx2.UnpackHigh(a, b).AsByte(), pack);
            var at = (nuint)(i * 6);
            first.GetLower().StoreUnsafe(ref target, at);
            second.GetLower().StoreUnsafe(ref target, at + 12);
            first.GetUpper().StoreUnsafe(ref target, at + 24);
            second.GetUpper().StoreUnsafe(ref target, at + 36);
        }

        return Math.Max(frames, 0);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void StoreWide<T>(Vector256<int> steps, Span<T> plane, int at)
        where T : unmanaged
    {
        ref var target = ref Unsafe.As<T, byte>(ref MemoryMarshal.GetReference(plane));
        if (typeof(T) == typeof(float))
        {
            (Vector256.ConvertToSingle(steps) * Scale).AsByte().StoreUnsafe(ref target, (nuint)(at * 4));
        }
        else if (typeof(T) == typeof(int))
        {
            steps.AsByte().StoreUnsafe(ref target, (nuint)(at * 4));
        }
        else
        {
            (Avx.ConvertToVector256Double(steps.GetLower()) * Scale).AsByte().StoreUnsafe(ref target, (nuint)(at * 8));
            (Avx.ConvertToVector256Double(steps.GetUpper()) * Scale).AsByte().StoreUnsafe(ref target, (nuint)((at * 8) + 32));
        }
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
