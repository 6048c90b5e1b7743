using System.Buffers.Binary;

namespace Athwart.Recordings;

/// <summary>The `ds64` chunk: 64-bit sizes of an RF64 (EBU Tech 3306) or BW64 (ITU-R BS.2088) file.</summary>
internal sealed record SizeTable(ulong RiffSize, ulong DataSize, ulong FrameCount, IReadOnlyDictionary<string, ulong> Others)
{
    /// <summary>Bytes of its data without a table.</summary>
    public const int MinimumSize = 28;

    /// <summary>Reads the chunk; null when it is too short to hold the sizes.</summary>
    public static SizeTable? Parse(ReadOnlySpan<byte> data)
    {
        if (data.Length < 24)
            return null;
        var others = new Dictionary<string, ulong>(StringComparer.Ordinal);
        if (data.Length >= MinimumSize)
        {
            // The count is not believed further than there are bytes for it.
            var count = Math.Min(BinaryPrimitives.ReadUInt32LittleEndian(data[24..]), (uint)((data.Length - MinimumSize) / 12));
            for (var i = 0; i < count; i++)
            {
                var row = data[(MinimumSize + (i * 12))..];
                others.TryAdd(FourCharacters.Read(row), BinaryPrimitives.ReadUInt64LittleEndian(row[4..]));
            }
        }

        return new(BinaryPrimitives.ReadUInt64LittleEndian(data), BinaryPrimitives.ReadUInt64LittleEndian(data[8..]), BinaryPrimitives.ReadUInt64LittleEndian(data[16..]), others);
    }

    /// <summary>Writes the 28 bytes of a table without rows.</summary>
    public static void Write(Span<byte> data, ulong riffSize, ulong dataSize, ulong frameCount)
    {
        BinaryPrimitives.WriteUInt64LittleEndian(data, riffSize);
        BinaryPrimitives.WriteUInt64LittleEndian(data[8..], dataSize);
        BinaryPrimitives.WriteUInt64LittleEndian(data[16..], frameCount);
        BinaryPrimitives.WriteUInt32LittleEndian(data[24..], 0);
    }
}
