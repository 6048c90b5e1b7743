using System.Buffers.Binary;
using System.Globalization;

namespace Athwart.Recordings;

/// <summary>`cue ` and LIST adtl (`labl`, `note`, `ltxt`): places with names, remarks and lengths (RIFF 1991).</summary>
internal sealed class MarkerChunks
{
    private const int PointSize = 24;
    private readonly List<(uint Name, long Frame)> _points = [];
    private readonly Dictionary<uint, string> _labels = [];
    private readonly Dictionary<uint, string> _notes = [];
    private readonly Dictionary<uint, uint> _lengths = [];

    /// <summary>Takes in a `cue ` chunk; the count is believed no further than there are bytes.</summary>
    public void AddPoints(ReadOnlySpan<byte> data)
    {
        if (data.Length < 4)
            return;
        var count = Math.Min(BinaryPrimitives.ReadUInt32LittleEndian(data), (uint)((data.Length - 4) / PointSize));
        for (var i = 0; i < count; i++)
        {
            var point = data[(4 + (i * PointSize))..];
            var position = BinaryPrimitives.ReadUInt32LittleEndian(point[4..]);
            var sampleOffset = BinaryPrimitives.ReadUInt32LittleEndian(point[20..]);
            // Some writers fill only one of the two; in a plain data chunk they mean the same.
            _points.Add((BinaryPrimitives.ReadUInt32LittleEndian(point), sampleOffset == 0 ? position : sampleOffset));
        }
    }

    /// <summary>Takes in what follows the list type of a LIST adtl chunk; the first text of a kind counts.</summary>
    public void AddTexts(ReadOnlySpan<byte> data)
    {
        foreach (var (id, range) in new SubChunks(data))
        {
            var text = data[range];
            if (text.Length < 4)
                continue;
            var name = BinaryPrimitives.ReadUInt32LittleEndian(text);
            switch (id)
            {
                case "labl": _labels.TryAdd(name, ChunkText.Read(text[4..])); break;
                case "note": _notes.TryAdd(name, ChunkText.Read(text[4..])); break;
                case "ltxt" when text.Length >= 20: AddRegion(name, text); break;
            }
        }
    }

    /// <summary>The markers in the order of their frames.</summary>
    public IReadOnlyList<Marker> ToMarkers() =>
    [
        .. _points
            .Select(p => new Marker(p.Frame, _lengths.GetValueOrDefault(p.Name), _labels.GetValueOrDefault(p.Name, ""), _notes.GetValueOrDefault(p.Name, "")))
            .OrderBy(m => m.Frame),
    ];

    /// <summary>The data of the `cue ` chunk; names count from 1.</summary>
    public static byte[] Points(IReadOnlyList<Marker> markers)
    {
        var data = new byte[4 + (PointSize * markers.Count)];
        BinaryPrimitives.WriteUInt32LittleEndian(data, (uint)markers.Count);
        for (var i = 0; i < markers.Count; i++)
        {
            var point = data.AsSpan(4 + (i * PointSize));
            BinaryPrimitives.WriteUInt32LittleEndian(point, (uint)(i + 1));
            BinaryPrimitives.WriteUInt32LittleEndian(point[4..], CueFrame(markers[i].Frame));
            FourCharacters.Write("data", point[8..]);
            BinaryPrimitives.WriteUInt32LittleEndian(point[20..], CueFrame(markers[i].Frame));
        }

        return data;
    }

    /// <summary>The data of the LIST adtl chunk with its list type; empty when no marker has a text or length.</summary>
    public static byte[] Texts(IReadOnlyList<Marker> markers)
    {
        using var list = new MemoryStream();
        for (var i = 0; i < markers.Count; i++)
        {
            var (name, marker) = ((uint)(i + 1), markers[i]);
            if (marker.Label.Length > 0)
                SubChunks.Write(list, "labl", Named(name, ChunkText.Terminated(marker.Label)));
            if (marker.Note.Length > 0)
                SubChunks.Write(list, "note", Named(name, ChunkText.Terminated(marker.Note)));
            if (marker.Length > 0)
                SubChunks.Write(list, "ltxt", Region(name, marker.Length));
        }

        return list.Length == 0 ? [] : [.. "adtl"u8, .. list.ToArray()];
    }

    private void AddRegion(uint name, ReadOnlySpan<byte> text)
    {
        _lengths.TryAdd(name, BinaryPrimitives.ReadUInt32LittleEndian(text[4..]));
        if (text.Length > 20)
            _notes.TryAdd(name, ChunkText.Read(text[20..]));
    }

    private static byte[] Named(uint name, byte[] text)
    {
        var data = new byte[4 + text.Length];
        BinaryPrimitives.WriteUInt32LittleEndian(data, name);
        text.CopyTo(data, 4);
        return data;
    }

    private static byte[] Region(uint name, long length)
    {
        var data = new byte[20];
        BinaryPrimitives.WriteUInt32LittleEndian(data, name);
        BinaryPrimitives.WriteUInt32LittleEndian(data.AsSpan(4), CueFrame(length));
        FourCharacters.Write("rgn ", data.AsSpan(8));
        return data;
    }

    private static uint CueFrame(long frame) => frame is >= 0 and <= uint.MaxValue
        ? (uint)frame
        : throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"a cue point holds frames up to {uint.MaxValue}, the marker is at or as long as {frame}"), nameof(frame));
}
