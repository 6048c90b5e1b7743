using System.Buffers.Binary;

namespace Athwart.Recordings;

/// <summary>Reads the `smpl` chunk.</summary>
internal static class SamplerChunk
{
    private const int FixedSize = 36;
    private const int LoopSize = 24;

    /// <summary>The notes; null when the chunk is too short. Loops are believed no further than there are bytes.</summary>
    public static SamplerNotes? Parse(ReadOnlySpan<byte> data)
    {
        if (data.Length < FixedSize)
            return null;
        var count = Math.Min(U32(data, 28), (uint)((data.Length - FixedSize) / LoopSize));
        var loops = new SamplerLoop[count];
        for (var i = 0; i < loops.Length; i++)
        {
            var loop = data.Slice(FixedSize + (i * LoopSize), LoopSize);
            loops[i] = new(U32(loop, 0), U32(loop, 4), U32(loop, 8), U32(loop, 12), U32(loop, 20));
        }

        return new() { SamplePeriodNanoseconds = U32(data, 8), UnityNote = (int)U32(data, 12), PitchFraction = U32(data, 16), Loops = loops };
    }

    private static uint U32(ReadOnlySpan<byte> data, int at) => BinaryPrimitives.ReadUInt32LittleEndian(data[at..]);
}
