using System.Buffers.Binary;

namespace Athwart.Recordings;

/// <summary>The bytes of a new file before its samples, and the places that are filled in at the end.</summary>
internal sealed class WaveHeader
{
    private const int SizeTableAt = 12;
    private readonly byte[] _bytes;

    public WaveHeader(WaveWriterOptions options)
    {
        using var bytes = new MemoryStream();
        bytes.Write("RIFF\0\0\0\0WAVE"u8);
        // Becomes ds64 if the file outgrows 32 bits; first, as EBU Tech 3306 wants it.
        Chunk(bytes, "JUNK", new byte[SizeTable.MinimumSize]);
        Chunk(bytes, "fmt ", Format(options));
        if (NeedsFact(options))
        {
            FactAt = bytes.Position + 8;
            Chunk(bytes, "fact", new byte[4]);
        }

        if (options.Broadcast is { } broadcast)
        {
            BroadcastAt = bytes.Position + 8;
            BroadcastSize = Chunk(bytes, "bext", broadcast.ToBytes());
        }

        if (options.Production is { } production)
            Chunk(bytes, "iXML", production.ToBytes());
        Chunk(bytes, "LIST", InfoChunk.ToBytes(options.Info));
        foreach (var extra in options.Extra.Where(e => e.BeforeSamples))
            Chunk(bytes, extra.Id, extra.Bytes.Span, evenIfEmpty: true);
        bytes.Write("data\0\0\0\0"u8);
        _bytes = bytes.ToArray();
    }

    /// <summary>Where the data of `fact` lies; null when there is none.</summary>
    public long? FactAt { get; }

    /// <summary>Where the data of `bext` lies; null when there is none.</summary>
    public long? BroadcastAt { get; }

    /// <summary>Bytes of the data of `bext`.</summary>
    public int BroadcastSize { get; }

    /// <summary>Where samples begin.</summary>
    public long DataAt => _bytes.Length;

    public ReadOnlySpan<byte> Bytes => _bytes;

    /// <summary>The chunks after the samples.</summary>
    public static byte[] Tail(WaveWriterOptions options)
    {
        using var tail = new MemoryStream();
        if (options.Markers.Count > 0)
            Chunk(tail, "cue ", MarkerChunks.Points(options.Markers));
        Chunk(tail, "LIST", MarkerChunks.Texts(options.Markers));
        if (options.Sampler is { } sampler)
            Chunk(tail, "smpl", SamplerChunk.ToBytes(sampler));
        foreach (var extra in options.Extra.Where(e => !e.BeforeSamples))
            Chunk(tail, extra.Id, extra.Bytes.Span, evenIfEmpty: true);
        return tail.ToArray();
    }

    /// <summary>Fills in the sizes of a file that stays RIFF.</summary>
    public void FinishRiff(PendingFile file, long riffSize, long dataSize, long frames)
    {
        WriteU32(file, 4, (uint)riffSize);
        WriteU32(file, DataAt - 4, (uint)dataSize);
        if (FactAt is { } fact)
            WriteU32(file, fact, (uint)frames);
    }

    /// <summary>Turns the file into RF64.</summary>
    public void FinishRf64(PendingFile file, long riffSize, long dataSize, long frames)
    {
        file.Write("RF64"u8, 0);
        WriteU32(file, 4, uint.MaxValue);
        Span<byte> table = stackalloc byte[8 + SizeTable.MinimumSize];
        FourCharacters.Write("ds64", table);
        BinaryPrimitives.WriteUInt32LittleEndian(table[4..], SizeTable.MinimumSize);
        SizeTable.Write(table[8..], (ulong)riffSize, (ulong)dataSize, (ulong)frames);
        file.Write(table, SizeTableAt);
        WriteU32(file, DataAt - 4, uint.MaxValue);
        if (FactAt is { } fact)
            WriteU32(file, fact, (uint)Math.Min(frames, uint.MaxValue));
    }

    private static bool NeedsFact(WaveWriterOptions options) => !options.Format.IsInteger || IsExtensible(options);

    /// <summary>The plain header up to two channels, which every reader knows; the long one where the plain one could not say it.</summary>
    private static bool IsExtensible(WaveWriterOptions options) => options.ChannelCount > 2 || options.ChannelMask is not null || options.Format.ValidBits != options.Format.ContainerBits;

    private static byte[] Format(WaveWriterOptions options)
    {
        var extensible = IsExtensible(options);
        var tag = options.Format.IsInteger ? 1 : 3;
        var frameBytes = options.ChannelCount * options.Format.BytesPerSample;
        var data = new byte[extensible ? 40 : options.Format.IsInteger ? 16 : 18];
        BinaryPrimitives.WriteUInt16LittleEndian(data, (ushort)(extensible ? 0xFFFE : tag));
        BinaryPrimitives.WriteUInt16LittleEndian(data.AsSpan(2), (ushort)options.ChannelCount);
        BinaryPrimitives.WriteUInt32LittleEndian(data.AsSpan(4), (uint)options.SampleRateHertz);
        BinaryPrimitives.WriteUInt32LittleEndian(data.AsSpan(8), (uint)Math.Min(uint.MaxValue, (long)options.SampleRateHertz * frameBytes));
        BinaryPrimitives.WriteUInt16LittleEndian(data.AsSpan(12), (ushort)frameBytes);
        BinaryPrimitives.WriteUInt16LittleEndian(data.AsSpan(14), (ushort)options.Format.ContainerBits);
        if (extensible)
        {
            BinaryPrimitives.WriteUInt16LittleEndian(data.AsSpan(16), 22);
            BinaryPrimitives.WriteUInt16LittleEndian(data.AsSpan(18), (ushort)options.Format.ValidBits);
            BinaryPrimitives.WriteUInt32LittleEndian(data.AsSpan(20), options.ChannelMask ?? 0);
            BinaryPrimitives.WriteUInt32LittleEndian(data.AsSpan(24), (uint)tag);
            ReadOnlySpan<byte> guidTail = [0, 0, 0x10, 0, 0x80, 0, 0, 0xAA, 0, 0x38, 0x9B, 0x71];
            guidTail.CopyTo(data.AsSpan(28));
        }

        return data;
    }

    private static int Chunk(MemoryStream bytes, string id, ReadOnlySpan<byte> data, bool evenIfEmpty = false)
    {
        if (data.Length > 0 || evenIfEmpty)
            SubChunks.Write(bytes, id, data);
        return data.Length;
    }

    private static void WriteU32(PendingFile file, long offset, uint value)
    {
        Span<byte> bytes = stackalloc byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(bytes, value);
        file.Write(bytes, offset);
    }
}
