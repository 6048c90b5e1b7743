using System.Buffers.Binary;
using System.Globalization;
using Athwart.Quantities;

namespace Athwart.Recordings;

/// <summary>Walks the chunks of a RIFF, RF64 or BW64 file from header to header; reads no samples.</summary>
/// <remarks>Every size is compared by subtraction in unsigned 64 bits with what the file still has before it is used.</remarks>
internal sealed class ChunkWalker
{
    /// <summary>More chunks than any recording has; a file of empty chunks would otherwise take minutes.</summary>
    internal const int ChunkLimit = 20_000;

    private const uint Unknown32 = uint.MaxValue;
    private readonly ByteSource _source;
    private readonly FindingList _findings;
    private readonly List<ChunkEntry> _chunks = [];
    private ContainerKind _container;
    private bool _finished;
    private SizeTable? _sizes;
    private WaveFormatChunk? _format;
    private ChunkEntry? _data;

    private ChunkWalker(ByteSource source, FindingList findings)
    {
        _source = source;
        _findings = findings;
    }

    private long FileLength => _source.Length;

    /// <summary>Walks a file whose first twelve bytes were recognised.</summary>
    public static WaveLayout Walk(ByteSource source, FindingList findings)
    {
        var walker = new ChunkWalker(source, findings);
        walker.Header();
        walker.Chunks();
        return walker.Layout();
    }

    private void Header()
    {
        Span<byte> header = stackalloc byte[12];
        _source.Read(0, header);
        _container = FourCharacters.Read(header) switch { "RF64" => ContainerKind.Rf64, "BW64" => ContainerKind.Bw64, _ => ContainerKind.Wave };
        // A writer that came back to fill in the size of the whole filled in the others too.
        var size = BinaryPrimitives.ReadUInt32LittleEndian(header[4..]);
        _finished = size != Unknown32 && size == FileLength - 8;
    }

    private void Chunks()
    {
        long position = 12;
        Span<byte> header = stackalloc byte[8];
        while (FileLength - position >= 8)
        {
            _source.Read(position, header);
            var id = FourCharacters.Read(header);
            if (!FourCharacters.IsPlausible(id))
            {
                Leftover(position);
                return;
            }

            if (_chunks.Count == ChunkLimit)
                throw new RecordingException(RecordingErrorKind.LimitReached, _source.Path, $"a recording has no more than {ChunkLimit} chunks", "This is not a recording, or its headers are damaged; copy the file again", position, id);
            position = Chunk(id, BinaryPrimitives.ReadUInt32LittleEndian(header[4..]), position + 8);
        }

        if (position < FileLength)
            Leftover(position);
    }

    /// <summary>Takes in one chunk and returns where the next header is.</summary>
    private long Chunk(string id, uint size32, long dataOffset)
    {
        var rest = (ulong)(FileLength - dataOffset);
        var isSamples = _data is null && string.Equals(id, "data", StringComparison.Ordinal);
        var size = isSamples ? DataSize(size32, dataOffset, rest) : OtherSize(id, size32);
        var entry = new ChunkEntry(id, dataOffset, (long)Math.Min(size, rest), size <= rest);
        _chunks.Add(entry);
        if (isSamples)
            _data = entry;
        else if (!entry.IsWhole)
            CutChunk(entry, size);
        TakeIn(entry);
        return entry.IsWhole ? AfterPadding(entry) : Resume(dataOffset);
    }

    /// <summary>After a chunk whose size cannot be right: where the next `fmt ` or `data` header lies within a mebibyte, if one is still needed; else the end.</summary>
    private long Resume(long dataOffset)
    {
        if (_data is not null)
            return FileLength;
        var window = new byte[(int)Math.Min(1024 * 1024, FileLength - dataOffset)];
        var bytes = window.AsSpan(0, _source.Read(dataOffset, window));
        var data = bytes.IndexOf("data"u8);
        var format = bytes.IndexOf("fmt "u8);
        var next = format >= 0 && (data < 0 || format < data) ? format : data;
        return next < 0 ? FileLength : dataOffset + next;
    }

    private void TakeIn(ChunkEntry entry)
    {
        if (_format is null && string.Equals(entry.Id, "fmt ", StringComparison.Ordinal))
        {
            Span<byte> data = stackalloc byte[40];
            var read = _source.Read(entry.DataOffset, data[..(int)Math.Min(40, entry.Size)]);
            _format = WaveFormatChunk.Parse(data[..read], _source.Path, entry.DataOffset);
            if (_format.Disagreement is { } disagreement)
                _findings.Add("header-disagrees", FindingSeverity.Note, $"The fmt chunk disagrees with itself: {disagreement}. It was read by the word size.", "");
        }
        else if (_sizes is null && _container != ContainerKind.Wave && string.Equals(entry.Id, "ds64", StringComparison.Ordinal))
        {
            var data = new byte[(int)Math.Min(entry.Size, 64 * 1024)];
            _sizes = SizeTable.Parse(data.AsSpan(0, _source.Read(entry.DataOffset, data)));
        }
        else if (string.Equals(entry.Id, "data", StringComparison.Ordinal) && !ReferenceEquals(entry, _data))
        {
            _findings.Add("second-data-chunk", FindingSeverity.Caution, $"There is a second data chunk at byte {entry.DataOffset}; the first one was read.", "Listen to the end of the take: sound may be missing there.");
        }
    }

    private ulong OtherSize(string id, uint size32)
    {
        if (size32 == Unknown32 && _sizes is not null && _sizes.Others.TryGetValue(id, out var size))
            return size;
        return size32;
    }

    /// <summary>How many bytes of samples the chunk says there are; a header that was never finished counts to the end.</summary>
    private ulong DataSize(uint size32, long dataOffset, ulong rest)
    {
        if (size32 == Unknown32 && _sizes is { } table && table.DataSize <= long.MaxValue && (table.DataSize > 0 || table.RiffSize > 0))
            return Claimed(table.DataSize, dataOffset, rest);
        if (size32 == Unknown32)
        {
            if (_container != ContainerKind.Wave && _sizes is null)
                _findings.Add("rf64-without-ds64", FindingSeverity.Caution, "The file says that its sizes are in a ds64 chunk and has none; the samples were read to the end of the file.", "Salvage it to get a sound copy.");
            else if (rest != Unknown32 && rest > 0)
                NotFinished(rest, "0xFFFFFFFF");
            return rest - TailOf(dataOffset);
        }

        if (size32 == 0 && rest > 0 && !IsEmptyAt(dataOffset))
        {
            NotFinished(rest, "0");
            return rest - TailOf(dataOffset);
        }

        return Claimed(Unwrapped(size32, dataOffset, rest), dataOffset, rest);
    }

    /// <summary>A RIFF file that grew past 4 GiB holds its size modulo 2^32.</summary>
    private ulong Unwrapped(uint size32, long dataOffset, ulong rest)
    {
        const ulong Wrap = 1UL << 32;
        if (_container != ContainerKind.Wave || rest < Wrap || rest - Wrap < size32 || IsKnownHeaderAt(dataOffset + size32) || IsKnownHeaderAt(dataOffset + size32 + 1))
            return size32;
        var size = size32 + ((rest - size32) / Wrap * Wrap);
        _findings.Add("size-wrapped", FindingSeverity.Caution, $"The file is longer than 4 GiB and its header holds the size modulo 2^32; {size} bytes of samples were read where it says {size32}.", "Salvage it to get a copy with 64-bit sizes.", new Evidence("size in the header", size32, "bytes"), new Evidence("size read", size, "bytes"));
        return size;
    }

    private ulong Claimed(ulong size, long dataOffset, ulong rest)
    {
        if (size > rest)
        {
            _findings.Add(
                "cut-short",
                FindingSeverity.Fault,
                $"The file ends {size - rest} bytes before its samples do: the header promises {size} bytes from byte {dataOffset}, there are {rest}. It was read as far as whole frames go.",
                "Look for a complete copy on the card; salvage writes a sound copy of what is there.",
                new Evidence("promised", size, "bytes"),
                new Evidence("present", rest, "bytes"));
        }

        return size;
    }

    private void NotFinished(ulong rest, string size) => _findings.Add(
        "header-not-finished",
        FindingSeverity.Caution,
        $"The recorder never finished the header (data size {size}), as after a power failure; the samples were read to the end of the file as far as whole frames go.",
        "Listen to the end of the take; salvage writes a sound copy.",
        new Evidence("samples found", rest, "bytes"));

    private void CutChunk(ChunkEntry entry, ulong size) => _findings.Add(
        "chunk-cut-short",
        FindingSeverity.Caution,
        $"The chunk '{FourCharacters.Show(entry.Id)}' at byte {entry.DataOffset} says it has {size} bytes; the file ends after {entry.Size}.",
        "Look for a complete copy on the card.");

    private void Leftover(long position)
    {
        var bytes = FileLength - position;
        // Much that follows the samples directly may be sound that a stale header does not count.
        var mayBeSound = bytes > 64 * 1024 && _chunks.Count > 0 && ReferenceEquals(_chunks[^1], _data);
        _findings.Add(
            "trailing-bytes",
            mayBeSound ? FindingSeverity.Caution : FindingSeverity.Note,
            string.Create(CultureInfo.InvariantCulture, $"{bytes} bytes from byte {position} to the end are no chunk and were left out."),
            mayBeSound ? "They may be sound that the header does not count, as after a power failure: compare the length of the take with what was recorded." : "",
            new Evidence("left out", bytes, "bytes"));
    }

    /// <summary>Where the next header is: after the pad byte an odd size asks for, or right behind it where the writer forgot the pad.</summary>
    private long AfterPadding(ChunkEntry entry)
    {
        var end = entry.DataOffset + entry.Size;
        if ((entry.Size & 1) == 0 || end >= FileLength)
        {
            if ((entry.Size & 1) != 0)
                OddPadding(entry);
            return end;
        }

        Span<byte> around = stackalloc byte[9];
        var there = _source.Read(end, around);
        if (there < 8 || !IsHeader(around[..8], end) || (there == 9 && IsHeader(around[1..], end + 1) && around[0] == 0))
            return end + 1;
        if (there == 9 && IsHeader(around[1..], end + 1) && !FourCharacters.IsKnown(FourCharacters.Read(around)))
            return end + 1;
        OddPadding(entry);
        return end;
    }

    private void OddPadding(ChunkEntry entry) => _findings.Add("odd-padding", FindingSeverity.Note, $"The chunk '{FourCharacters.Show(entry.Id)}' has an odd size of {entry.Size} bytes and no pad byte after it.", "");

    /// <summary>Whether a sample size of 0 is meant: a chunk follows, of a known name or in a file whose whole size is right.</summary>
    private bool IsEmptyAt(long position)
    {
        Span<byte> header = stackalloc byte[8];
        return IsKnownHeaderAt(position) || (_finished && _source.Read(position, header) == 8 && IsHeader(header, position));
    }

    private bool IsKnownHeaderAt(long position)
    {
        Span<byte> header = stackalloc byte[8];
        return position == FileLength || (_source.Read(position, header) == 8 && FourCharacters.IsKnown(FourCharacters.Read(header)));
    }

    /// <summary>Whether eight bytes look like the header of a chunk that fits in the file.</summary>
    private bool IsHeader(ReadOnlySpan<byte> header, long position)
    {
        var id = FourCharacters.Read(header);
        var size = BinaryPrimitives.ReadUInt32LittleEndian(header[4..]);
        return FourCharacters.IsKnown(id) || (FourCharacters.IsPlausible(id) && size <= FileLength - position - 8);
    }

    /// <summary>Bytes of whole, known chunks at the very end of a file whose samples have no stated size: a streaming writer may have put them there.</summary>
    private ulong TailOf(long dataOffset) => TailFinder.Find(_source, dataOffset);

    private WaveLayout Layout()
    {
        if (_format is null)
            throw Missing("fmt ", "that says how samples are stored");
        if (_data is null)
            throw Missing("data", "that holds the samples");
        var layout = new WaveLayout(_container, _format, _data.DataOffset, _data.Size, _chunks);
        var partial = _data.Size % layout.FrameBytes;
        if (partial != 0)
            _findings.Add("partial-frame", FindingSeverity.Note, $"The samples end {partial} bytes into a frame of {layout.FrameBytes}; the part of a frame was left out.", "", new Evidence("left out", partial, "bytes"));
        return layout;
    }

    private RecordingException Missing(string id, string purpose)
    {
        var cut = _findings.Has("chunk-cut-short") || _chunks.Count == 0;
        return new(cut ? RecordingErrorKind.Truncated : RecordingErrorKind.Malformed, _source.Path, $"a WAVE file has a '{id}' chunk {purpose}; none was found in {FileLength} bytes", cut ? "The file was cut off before its sound began; copy it from the card again" : "The header is damaged or no sound was recorded; copy the file from the card again", FileLength, id);
    }
}
