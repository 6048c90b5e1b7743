using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Athwart.Recordings;

/// <summary>Planar samples to interleaved container words.</summary>
internal static class SampleEncoder
{
    /// <summary>Encodes steps of an integer format.</summary>
    /// <returns>False when a step does not fit the container.</returns>
    public static bool Encode(PlanarBlock<int> block, int firstFrame, int frames, SampleFormat format, Span<byte> bytes) => format.ContainerBits switch
    {
        8 => Integers<Unsigned8>(block, firstFrame, frames, bytes),
        16 => Integers<Signed16>(block, firstFrame, frames, bytes),
        24 => Integers24(block, firstFrame, frames, bytes),
        _ => Integers<Signed32>(block, firstFrame, frames, bytes),
    };

    /// <summary>Encodes samples of a float format.</summary>
    public static void Encode<T>(PlanarBlock<T> block, int firstFrame, int frames, SampleFormat format, Span<byte> bytes)
        where T : unmanaged
    {
        if (format.ContainerBits == 32)
            Floats<Float32Word, T>(block, firstFrame, frames, bytes);
        else
            Floats<Float64Word, T>(block, firstFrame, frames, bytes);
    }

    private static bool Integers24(PlanarBlock<int> block, int firstFrame, int frames, Span<byte> bytes)
    {
        var done = 0;
        if (block.ChannelCount == 2)
        {
            var left = block.WholeChannel(0).Slice(firstFrame, frames);
            var right = block.WholeChannel(1).Slice(firstFrame, frames);
            done = Packed24.Interleave(left, right, bytes, out var fits);
            if (!fits)
                return false;
        }

        return Integers<Signed24>(block, firstFrame + done, frames - done, bytes[(done * block.ChannelCount * 3)..]);
    }

    private static bool Integers<TWord>(PlanarBlock<int> block, int firstFrame, int frames, Span<byte> bytes)
        where TWord : struct, IIntegerWord
    {
        if (frames == 0)
            return true;
        var spare = 32 - (8 * TWord.Size);
        var stride = block.ChannelCount * TWord.Size;
        var beyond = 0;
        bytes = bytes[..(frames * stride)];
        for (var c = 0; c < block.ChannelCount; c++)
        {
            var plane = block.WholeChannel(c).Slice(firstFrame, frames);
            ref var word = ref Unsafe.Add(ref MemoryMarshal.GetReference(bytes), c * TWord.Size);
            for (var i = 0; i < plane.Length; i++)
            {
                beyond |= plane[i] ^ ((plane[i] << spare) >> spare);
                TWord.Write(ref Unsafe.Add(ref word, i * stride), plane[i]);
            }
        }

        return beyond == 0;
    }

    private static void Floats<TWord, T>(PlanarBlock<T> block, int firstFrame, int frames, Span<byte> bytes)
        where TWord : struct, IFloatWord
        where T : unmanaged
    {
        if (frames == 0)
            return;
        var stride = block.ChannelCount * TWord.Size;
        bytes = bytes[..(frames * stride)];
        for (var c = 0; c < block.ChannelCount; c++)
        {
            var plane = block.WholeChannel(c).Slice(firstFrame, frames);
            ref var word = ref Unsafe.Add(ref MemoryMarshal.GetReference(bytes), c * TWord.Size);
            for (var i = 0; i < plane.Length; i++)
                TWord.Write(ref Unsafe.Add(ref word, i * stride), ToDouble(plane[i]));
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double ToDouble<T>(T sample)
        where T : unmanaged => typeof(T) == typeof(float) ? Unsafe.As<T, float>(ref sample) : Unsafe.As<T, double>(ref sample);
}
