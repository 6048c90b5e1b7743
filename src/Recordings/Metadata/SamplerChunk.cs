using System.Buffers.Binary;

namespace Athwart.Recordings;

/// <summary>Reads and writes the `smpl` chunk.</summary>
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

    /// <summary>The data of the chunk: no manufacturer, no product, no time code (RIFF 1994, from memory).</summary>
    public static byte[] ToBytes(SamplerNotes notes)
    {
        var data = new byte[FixedSize + (LoopSize * notes.Loops.Count)];
        BinaryPrimitives.WriteUInt32LittleEndian(data.AsSpan(8), notes.SamplePeriodNanoseconds);
        BinaryPrimitives.WriteUInt32LittleEndian(data.AsSpan(12), (uint)notes.UnityNote);
        BinaryPrimitives.WriteUInt32LittleEndian(data.AsSpan(16), notes.PitchFraction);
        BinaryPrimitives.WriteUInt32LittleEndian(data.AsSpan(28), (uint)notes.Loops.Count);
        for (var i = 0; i < notes.Loops.Count; i++)
        {
            var loop = notes.Loops[i];
            var at = data.AsSpan(FixedSize + (i * LoopSize), LoopSize);
            BinaryPrimitives.WriteUInt32LittleEndian(at, loop.Id);
            BinaryPrimitives.WriteUInt32LittleEndian(at[4..], loop.Type);
            BinaryPrimitives.WriteUInt32LittleEndian(at[8..], loop.FirstFrame);
            BinaryPrimitives.WriteUInt32LittleEndian(at[12..], loop.LastFrame);
            BinaryPrimitives.WriteUInt32LittleEndian(at[20..], loop.PlayCount);
        }

        return data;
    }

    private static uint U32(ReadOnlySpan<byte> data, int at) => BinaryPrimitives.ReadUInt32LittleEndian(data[at..]);
}
