using Athwart.Quantities;

namespace Athwart.Recordings;

/// <summary>One file opened for reading: its samples, and what it says about them. The file is never changed.</summary>
public sealed class RecordingFile : IRecording
{
    private readonly ByteSource _bytes;
    private readonly SampleSource _samples;

    private RecordingFile(ByteSource bytes, SampleSource samples)
    {
        _bytes = bytes;
        _samples = samples;
    }

    /// <summary>The path it was opened by.</summary>
    public string Path => _bytes.Path;

    /// <summary>The kind of file.</summary>
    public required ContainerKind Container { get; init; }

    /// <summary>The length of the file in bytes.</summary>
    public long FileLength => _bytes.Length;

    /// <summary>The `bext` chunk; null when absent or unreadable.</summary>
    public BroadcastExtension? Broadcast { get; private init; }

    /// <summary>The `iXML` chunk; null when absent or unreadable.</summary>
    public ProductionNotes? Production { get; private init; }

    /// <summary>The `smpl` chunk; null when absent.</summary>
    public SamplerNotes? Sampler { get; private init; }

    /// <summary>Cue points with labels, notes and lengths, by frame; some may lie past the end of a damaged file.</summary>
    public IReadOnlyList<Marker> Markers { get; private init; } = [];

    /// <summary>The texts of LIST INFO, or of a FLAC or AIFF file under the INFO names of the same meaning.</summary>
    public IReadOnlyList<InfoTag> Info { get; private init; } = [];

    /// <summary>All chunks in the order of the file; empty for FLAC and AIFF.</summary>
    public IReadOnlyList<ChunkEntry> Chunks { get; private init; } = [];

    /// <summary>Harmless disagreements and damage that was read around; docs/findings.md lists the kinds.</summary>
    public IReadOnlyList<Finding> Findings { get; private init; } = [];

    /// <summary>Speaker positions of an EXTENSIBLE header; 0 when none are assigned.</summary>
    public uint ChannelMask { get; private init; }

    /// <inheritdoc/>
    public int ChannelCount => _samples.ChannelCount;

    /// <inheritdoc/>
    public int SampleRateHertz => _samples.SampleRateHertz;

    /// <inheritdoc/>
    public SampleFormat Format => _samples.Format;

    /// <inheritdoc/>
    public long FrameCount => _samples.FrameCount;

    /// <summary>Opens a file and reads its headers and metadata; time and memory do not depend on its length.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="RecordingException">It is no recording that can be read; says where, why and what to do.</exception>
    public static RecordingFile Open(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        return Open(OpenBytes(path));
    }

    /// <summary>Opens bytes from anywhere; the recording owns them.</summary>
    internal static RecordingFile Open(ByteSource bytes)
    {
        try
        {
            return Identify(bytes) is { } container ? OpenLibrary(bytes, container) : OpenWave(bytes);
        }
        catch
        {
            bytes.Dispose();
            throw;
        }
    }

    /// <summary>The data of a chunk.</summary>
    /// <param name="chunk">One of <see cref="Chunks"/>.</param>
    /// <param name="limit">The most bytes to read, 0 or more; a longer chunk is cut.</param>
    public byte[] ReadChunk(ChunkEntry chunk, int limit)
    {
        ArgumentNullException.ThrowIfNull(chunk);
        ArgumentOutOfRangeException.ThrowIfNegative(limit);
        var data = new byte[(int)Math.Min(chunk.Size, limit)];
        var read = _bytes.Read(chunk.DataOffset, data);
        return read == data.Length ? data : data[..read];
    }

    /// <inheritdoc/>
    public int Read(long firstFrame, int frameCount, PlanarBlock<float> block)
    {
        ReadArguments.Check(this, firstFrame, frameCount, block);
        return block.Length = _samples.Read(firstFrame, frameCount, new BlockTarget<float>(block, 0, 0));
    }

    /// <inheritdoc/>
    public int Read(long firstFrame, int frameCount, PlanarBlock<double> block)
    {
        ReadArguments.Check(this, firstFrame, frameCount, block);
        return block.Length = _samples.Read(firstFrame, frameCount, new BlockTarget<double>(block, 0, 0));
    }

    /// <inheritdoc/>
    public int Read(long firstFrame, int frameCount, PlanarBlock<int> block)
    {
        ReadArguments.Check(this, firstFrame, frameCount, block);
        return block.Length = _samples.Read(firstFrame, frameCount, new BlockTarget<int>(block, 0, 0));
    }

    /// <inheritdoc/>
    public int ReadBytes(long firstFrame, int frameCount, Span<byte> interleaved)
    {
        ReadArguments.Check(this, firstFrame, frameCount, interleaved);
        return _samples.ReadBytes(firstFrame, frameCount, interleaved);
    }

    /// <summary>Closes the file.</summary>
    public void Dispose()
    {
        _samples.Dispose();
        _bytes.Dispose();
    }

    /// <summary>The samples, for takes of several files.</summary>
    internal SampleSource Samples => _samples;

    private static FileByteSource OpenBytes(string path)
    {
        try
        {
            // An empty file, a pipe and a device all have no length; none is opened, for a pipe would wait for ever.
            var target = File.ResolveLinkTarget(path, returnFinalTarget: true)?.FullName ?? path;
            if (new FileInfo(target) is { Exists: true, Length: 0 })
                throw new RecordingException(RecordingErrorKind.NotARecording, path, "the file is empty, or is a pipe or device", "Nothing was recorded in it; look for the take under another name", 0);
            return new FileByteSource(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            throw new RecordingException(RecordingErrorKind.Unreadable, path, $"the file cannot be read: {e.Message.TrimEnd('.')}", "Check that it is there, is a file and may be read", inner: e);
        }
    }

    /// <summary>FLAC and AIFF; null for the WAVE family; refuses the rest.</summary>
    private static ContainerKind? Identify(ByteSource bytes)
    {
        Span<byte> head = stackalloc byte[16];
        head = head[..bytes.Read(0, head)];
        return head switch
        {
            [(byte)'R', (byte)'I', (byte)'F', (byte)'F', _, _, _, _, (byte)'W', (byte)'A', (byte)'V', (byte)'E', ..] => null,
            [(byte)'R', (byte)'F', (byte)'6', (byte)'4', _, _, _, _, (byte)'W', (byte)'A', (byte)'V', (byte)'E', ..] => null,
            [(byte)'B', (byte)'W', (byte)'6', (byte)'4', _, _, _, _, (byte)'W', (byte)'A', (byte)'V', (byte)'E', ..] => null,
            [(byte)'f', (byte)'L', (byte)'a', (byte)'C', ..] => ContainerKind.Flac,
            [(byte)'F', (byte)'O', (byte)'R', (byte)'M', _, _, _, _, (byte)'A', (byte)'I', (byte)'F', (byte)'F' or (byte)'C', ..] => ContainerKind.Aiff,
            _ => throw Unknown(bytes, head),
        };
    }

    private static RecordingException Unknown(ByteSource bytes, ReadOnlySpan<byte> head)
    {
        if (head.StartsWith("riff"u8))
            return new(RecordingErrorKind.Unsupported, bytes.Path, "this is a Wave64 (.w64) file, which is not read", "Convert it to RF64, for example with: ffmpeg -i IN.w64 -c copy -rf64 auto OUT.wav", 0);
        if (head.StartsWith("RIFX"u8))
            return new(RecordingErrorKind.Unsupported, bytes.Path, "this is a big-endian RIFX file, which is not read", "Convert it to WAVE, for example with sox", 0);
        if (head.StartsWith("RIFF"u8) && head.Length >= 12)
            return new(RecordingErrorKind.NotARecording, bytes.Path, $"the RIFF file holds '{FourCharacters.Show(FourCharacters.Read(head[8..]))}', not WAVE", "If it should be a recording its header is damaged; copy it again", 8);
        if (head.Length < 12)
            return new(RecordingErrorKind.Truncated, bytes.Path, $"a recording begins with a header of at least 12 bytes; this file has {head.Length}", "Copy it from the card again", 0);
        return new(RecordingErrorKind.NotARecording, bytes.Path, $"the file begins with '{FourCharacters.Show(FourCharacters.Read(head))}'; a recording begins with RIFF, RF64, BW64, fLaC or FORM", "If it should be a recording its header is damaged; copy it again", 0);
    }

    private static RecordingFile OpenWave(ByteSource bytes)
    {
        var findings = new FindingList(bytes.Path);
        var layout = ChunkWalker.Walk(bytes, findings);
        var metadata = FileMetadata.Read(bytes, layout.Chunks, findings);
        var samples = new WaveSamples(bytes, layout.DataOffset)
        {
            ChannelCount = layout.Format.ChannelCount,
            SampleRateHertz = layout.Format.SampleRateHertz,
            Format = layout.Format.Format,
            FrameCount = layout.FrameCount,
        };
        return new(bytes, samples)
        {
            Container = layout.Container,
            Broadcast = metadata.Broadcast,
            Production = metadata.Production,
            Sampler = metadata.Sampler,
            Markers = metadata.Markers,
            Info = metadata.Info,
            Chunks = layout.Chunks,
            ChannelMask = layout.Format.ChannelMask,
            Findings = findings.All,
        };
    }

    private static RecordingFile OpenLibrary(ByteSource bytes, ContainerKind container)
    {
        var samples = LibrarySamples.Open(bytes.Path, container);
        return new(bytes, samples) { Container = container, Info = samples.Info };
    }
}
