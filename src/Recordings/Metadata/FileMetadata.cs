using Athwart.Quantities;

namespace Athwart.Recordings;

/// <summary>Everything a WAVE file says besides its samples. Chunks that cannot be read become findings, never refusals.</summary>
internal sealed class FileMetadata
{
    /// <summary>All the bytes of metadata that are read from one file, whatever its chunks say.</summary>
    private const int Budget = 32 * 1024 * 1024;

    private const int ChunkLimit = 4 * 1024 * 1024;
    private readonly ByteSource _source;
    private readonly FindingList _findings;
    private readonly MarkerChunks _markers = new();
    private readonly List<InfoTag> _info = [];
    private int _budget = Budget;

    private FileMetadata(ByteSource source, FindingList findings)
    {
        _source = source;
        _findings = findings;
    }

    public BroadcastExtension? Broadcast { get; private set; }

    public ProductionNotes? Production { get; private set; }

    public SamplerNotes? Sampler { get; private set; }

    public IReadOnlyList<InfoTag> Info => _info;

    public IReadOnlyList<Marker> Markers { get; private set; } = [];

    public static FileMetadata Read(ByteSource source, IReadOnlyList<ChunkEntry> chunks, FindingList findings)
    {
        var metadata = new FileMetadata(source, findings);
        foreach (var chunk in chunks)
            metadata.Take(chunk);
        metadata.Markers = metadata._markers.ToMarkers();
        return metadata;
    }

    private void Take(ChunkEntry chunk)
    {
        switch (chunk.Id)
        {
            case "bext" when Broadcast is null: Broadcast = TryParse(chunk, data => BroadcastExtension.Parse(data)); break;
            case "iXML" when Production is null: Production = TryParse(chunk, data => ProductionNotes.Parse(data)); break;
            case "smpl" when Sampler is null: Sampler = TryParse(chunk, data => SamplerChunk.Parse(data)); break;
            case "cue ": _markers.AddPoints(Bytes(chunk)); break;
            case "LIST": List(Bytes(chunk)); break;
        }
    }

    private void List(ReadOnlySpan<byte> data)
    {
        if (data.Length < 4)
            return;
        switch (FourCharacters.Read(data))
        {
            case "INFO": InfoChunk.Parse(data[4..], _info); break;
            case "adtl": _markers.AddTexts(data[4..]); break;
        }
    }

    private T? TryParse<T>(ChunkEntry chunk, Func<byte[], T?> parse)
        where T : class
    {
        try
        {
            return parse(Bytes(chunk));
        }
        catch (FormatException e)
        {
            _findings.Add(chunk.Id.Trim().ToLowerInvariant() + "-unreadable", FindingSeverity.Note, $"The chunk '{chunk.Id}' at byte {chunk.DataOffset} was left out: {e.Message}", "The sound is not concerned; enter what it said by hand.");
            return null;
        }
    }

    private byte[] Bytes(ChunkEntry chunk)
    {
        var size = (int)Math.Min(chunk.Size, Math.Min(ChunkLimit, _budget));
        if (size < chunk.Size)
            _findings.Add("metadata-too-large", FindingSeverity.Note, $"The chunk '{chunk.Id}' has {chunk.Size} bytes; {size} of them were read.", "");
        _budget -= size;
        var data = new byte[size];
        return _source.Read(chunk.DataOffset, data) is var read && read < size ? data[..read] : data;
    }
}
