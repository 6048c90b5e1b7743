using System.Buffers.Binary;

namespace Athwart.Recordings;

/// <summary>LIST INFO: four-character names with a text each (RIFF 1991).</summary>
internal static class InfoChunk
{
    /// <summary>Reads what follows the list type; stops at the first sub-chunk that does not fit.</summary>
    public static void Parse(ReadOnlySpan<byte> data, List<InfoTag> tags)
    {
        foreach (var (id, text) in new SubChunks(data))
        {
            if (FourCharacters.IsPlausible(id))
                tags.Add(new(id, ChunkText.Read(data[text])));
        }
    }

    /// <summary>The data of the chunk with its list type; empty when there are no tags.</summary>
    public static byte[] ToBytes(IReadOnlyList<InfoTag> tags)
    {
        if (tags.Count == 0)
            return [];
        using var list = new MemoryStream();
        list.Write("INFO"u8);
        foreach (var tag in tags)
            SubChunks.Write(list, tag.Id, ChunkText.Terminated(tag.Text));
        return list.ToArray();
    }
}

/// <summary>Walks the sub-chunks of a LIST; sizes are compared with what is left before use.</summary>
internal readonly struct SubChunks
{
    private readonly List<(string Id, Range Data)> _found = [];

    public SubChunks(ReadOnlySpan<byte> list)
    {
        var at = 0;
        while (list.Length - at >= 8)
        {
            var size = BinaryPrimitives.ReadUInt32LittleEndian(list[(at + 4)..]);
            if (size > (uint)(list.Length - at - 8))
                break;
            var end = at + 8 + (int)size;
            _found.Add((FourCharacters.Read(list[at..]), (at + 8)..end));
            // An odd text without its pad byte is told by what follows not being NUL.
            at = (size & 1) != 0 && end < list.Length && list[end] == 0 ? end + 1 : end;
        }
    }

    public List<(string Id, Range Data)>.Enumerator GetEnumerator() => _found.GetEnumerator();

    /// <summary>Writes one sub-chunk with its pad byte.</summary>
    public static void Write(Stream list, string id, ReadOnlySpan<byte> data)
    {
        Span<byte> header = stackalloc byte[8];
        FourCharacters.Write(id, header);
        BinaryPrimitives.WriteUInt32LittleEndian(header[4..], (uint)data.Length);
        list.Write(header);
        list.Write(data);
        if ((data.Length & 1) != 0)
            list.WriteByte(0);
    }
}
