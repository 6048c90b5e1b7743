using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Athwart.Recordings;

/// <summary>Interleaved container words to planar samples.</summary>
internal static class SampleDecoder
{
    /// <summary>Decodes whole frames; the sample type decides the scale as <see cref="IRecording"/> has it.</summary>
    /// <remarks>Integer to float is one correctly rounded conversion and a multiplication by a power of two, so vector and scalar paths agree to the bit.</remarks>
    public static void Decode<T>(ReadOnlySpan<byte> bytes, SampleFormat format, int channels, int frames, BlockTarget<T> target)
        where T : unmanaged
    {
        bytes = bytes[..(frames * channels * format.BytesPerSample)];
        switch (format.Encoding, format.ContainerBits)
        {
            case (SampleEncoding.UnsignedInteger, 8): Integers<Unsigned8, T>(bytes, channels, frames, target); break;
            case (SampleEncoding.SignedInteger, 16): Integers<Signed16, T>(bytes, channels, frames, target); break;
            case (SampleEncoding.SignedInteger, 24): Integers24(bytes, channels, frames, target); break;
            case (SampleEncoding.SignedInteger, 32): Integers<Signed32, T>(bytes, channels, frames, target); break;
            case (SampleEncoding.Float, 32): Floats<Float32Word, T>(bytes, channels, frames, target); break;
            case (SampleEncoding.Float, 64): Floats<Float64Word, T>(bytes, channels, frames, target); break;
            default: throw new NotSupportedException($"{format} samples cannot be decoded");
        }
    }

    /// <summary>One integer step as a sample; <paramref name="scale"/> is the reciprocal of full scale, a power of two.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static T FromStep<T>(int step, double scale)
        where T : unmanaged
    {
        if (typeof(T) == typeof(float))
            return As<float, T>(step * (float)scale);
        return typeof(T) == typeof(double) ? As<double, T>(step * scale) : As<int, T>(step);
    }

    private static void Integers24<T>(ReadOnlySpan<byte> bytes, int channels, int frames, BlockTarget<T> target)
        where T : unmanaged
    {
        var done = channels switch
        {
            1 => Packed24.Expand(bytes, target.Plane(0, frames)),
            2 => Packed24.Deinterleave(bytes, target.Plane(0, frames), target.Plane(1, frames)),
            _ => 0,
        };
        Integers<Signed24, T>(bytes[(done * 3 * channels)..], channels, frames - done, target.Skip(done));
    }

    private static void Integers<TWord, T>(ReadOnlySpan<byte> bytes, int channels, int frames, BlockTarget<T> target)
        where TWord : struct, IIntegerWord
        where T : unmanaged
    {
        if (frames == 0)
            return;
        var scale = 1.0 / (1L << ((8 * TWord.Size) - 1));
        var stride = channels * TWord.Size;
        for (var c = 0; c < channels; c++)
        {
            var plane = target.Plane(c, frames);
            ref var word = ref Unsafe.Add(ref MemoryMarshal.GetReference(bytes), c * TWord.Size);
            for (var i = 0; i < plane.Length; i++)
                plane[i] = FromStep<T>(TWord.Read(in Unsafe.Add(ref word, i * stride)), scale);
        }
    }

    private static void Floats<TWord, T>(ReadOnlySpan<byte> bytes, int channels, int frames, BlockTarget<T> target)
        where TWord : struct, IFloatWord
        where T : unmanaged
    {
        if (frames == 0)
            return;
        var stride = channels * TWord.Size;
        for (var c = 0; c < channels; c++)
        {
            var plane = target.Plane(c, frames);
            ref var word = ref Unsafe.Add(ref MemoryMarshal.GetReference(bytes), c * TWord.Size);
            for (var i = 0; i < plane.Length; i++)
            {
                var sample = TWord.Read(in Unsafe.Add(ref word, i * stride));
                plane[i] = typeof(T) == typeof(float) ? As<float, T>((float)sample) : As<double, T>(sample);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T As<TFrom, T>(TFrom value) => Unsafe.As<TFrom, T>(ref value);
}
