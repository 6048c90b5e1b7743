namespace Athwart.Recordings;

/// <summary>Writes one WAVE file: under a temporary name beside its target, and under its own when it is complete.</summary>
/// <remarks>Every size in the file is what was written. A file that outgrows 32-bit sizes becomes RF64 by itself, in the JUNK chunk reserved for it. Not for several threads at once.</remarks>
public sealed class WaveWriter : IDisposable
{
    private const int BufferBytes = 512 * 1024;

    private readonly WaveWriterOptions _options;
    private readonly WaveHeader _header;
    private readonly byte[] _tail;
    private readonly PendingFile _file;
    private readonly byte[] _buffer;
    private readonly int _frameBytes;
    private BroadcastExtension? _broadcast;
    private long _flushed;
    private int _buffered;
    private bool _complete;

    private WaveWriter(string path, WaveWriterOptions options)
    {
        Path = path;
        _options = options;
        _broadcast = options.Broadcast;
        _header = new(options);
        _tail = WaveHeader.Tail(options);
        _frameBytes = options.ChannelCount * options.Format.BytesPerSample;
        _buffer = GC.AllocateUninitializedArray<byte>(Math.Max(1, BufferBytes / _frameBytes) * _frameBytes);
        _file = new(path, options.Overwrite);
        _file.Write(_header.Bytes, 0);
    }

    /// <summary>The target.</summary>
    public string Path { get; }

    /// <summary>Whole frames written so far.</summary>
    public long FramesWritten => (_flushed + _buffered) / _frameBytes;

    /// <summary>The `bext` chunk, which may be replaced by one of the same length (other loudness fields, say) before the file is complete.</summary>
    /// <exception cref="InvalidOperationException">Set to another length, or where there is none.</exception>
    public BroadcastExtension? Broadcast
    {
        get => _broadcast;
        set
        {
            if (value is null || _header.BroadcastAt is null || value.ToBytes().Length != _header.BroadcastSize)
                throw new InvalidOperationException($"the bext chunk has {_header.BroadcastSize} bytes in this file and can only be replaced by one of that length");
            _broadcast = value;
        }
    }

    /// <summary>Begins a file.</summary>
    /// <param name="path">The target; it appears when <see cref="Complete"/> is called.</param>
    /// <param name="options">What it holds.</param>
    /// <exception cref="ArgumentException">The options cannot be written; says which.</exception>
    /// <exception cref="IOException">The target exists and must not be replaced, or the disk refuses.</exception>
    public static WaveWriter Create(string path, WaveWriterOptions options)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(options);
        if (options.ChannelCount is < 1 or > 64)
            throw new ArgumentException($"a file has 1 to 64 channels, not {options.ChannelCount}", nameof(options));
        if (options.SampleRateHertz is < 8_000 or > 768_000)
            throw new ArgumentException($"a file has 8000 to 768000 frames a second, not {options.SampleRateHertz}", nameof(options));
        if (!options.Format.IsSupported)
            throw new ArgumentException($"{options.Format} samples cannot be written", nameof(options));
        foreach (var id in options.Extra.Select(e => e.Id).Concat(options.Info.Select(t => t.Id)))
        {
            if (!FourCharacters.IsPlausible(id) || id is "data" or "fmt " or "ds64")
                throw new ArgumentException($"'{id}' cannot be the name of a chunk carried along", nameof(options));
        }

        return new(path, options);
    }

    /// <summary>Writes steps of the container word; <see cref="PlanarBlock{T}.Length"/> frames.</summary>
    /// <exception cref="ArgumentException">A step is beyond the container, or the channels differ.</exception>
    /// <exception cref="InvalidOperationException">The format is float, or the file is complete.</exception>
    public void Write(PlanarBlock<int> block)
    {
        Check(block, integer: true);
        var frames = 0;
        for (var done = 0; done < block.Length; done += frames)
        {
            frames = Room(block.Length - done);
            if (!SampleEncoder.Encode(block, done, frames, _options.Format, _buffer.AsSpan(_buffered, frames * _frameBytes)))
                throw new ArgumentException($"a step between frames {FramesWritten} and {FramesWritten + frames} does not fit {_options.Format.ContainerBits} bits", nameof(block));
            _buffered += frames * _frameBytes;
        }
    }

    /// <summary>Writes samples of a float format as they are.</summary>
    /// <exception cref="ArgumentException">The channels differ.</exception>
    /// <exception cref="InvalidOperationException">The format is integer (quantise first), or the file is complete.</exception>
    public void Write(PlanarBlock<float> block) => WriteFloats(block);

    /// <summary>Writes samples of a float format, rounded to nearest where it is 32-bit.</summary>
    /// <inheritdoc cref="Write(PlanarBlock{float})"/>
    public void Write(PlanarBlock<double> block) => WriteFloats(block);

    /// <summary>Writes whole frames of container words as they are.</summary>
    /// <exception cref="ArgumentException">The bytes are no whole frames.</exception>
    public void WriteBytes(ReadOnlySpan<byte> interleaved)
    {
        ThrowIfComplete();
        if (interleaved.Length % _frameBytes != 0)
            throw new ArgumentException($"{interleaved.Length} bytes are no whole frames of {_frameBytes}", nameof(interleaved));
        if (interleaved.Length >= _buffer.Length)
        {
            Flush();
            _file.Write(interleaved, _header.DataAt + _flushed);
            _flushed += interleaved.Length;
            return;
        }

        if (interleaved.Length > _buffer.Length - _buffered)
            Flush();
        interleaved.CopyTo(_buffer.AsSpan(_buffered));
        _buffered += interleaved.Length;
    }

    /// <summary>Finishes the sizes, hands the bytes to the disk and gives the file its name.</summary>
    /// <exception cref="IOException">The disk refuses, or the target appeared meanwhile and must not be replaced; nothing is left behind.</exception>
    public void Complete()
    {
        ThrowIfComplete();
        Flush();
        var dataSize = _flushed;
        var end = _header.DataAt + dataSize;
        if ((dataSize & 1) != 0)
            _file.Write([0], end++);
        if (_tail.Length > 0)
            _file.Write(_tail, end);
        var riffSize = end + _tail.Length - 8;
        if (riffSize > _options.Rf64Threshold || riffSize > uint.MaxValue - 1)
            _header.FinishRf64(_file, riffSize, dataSize, FramesWritten);
        else
            _header.FinishRiff(_file, riffSize, dataSize, FramesWritten);
        if (_header.BroadcastAt is { } at && !ReferenceEquals(_broadcast, _options.Broadcast))
            _file.Write(_broadcast!.ToBytes(), at);
        _file.Complete(_options.Durable);
        _complete = true;
    }

    /// <summary>Removes the temporary file unless the file is complete; never fails.</summary>
    public void Dispose() => _file.Dispose();

    private void WriteFloats<T>(PlanarBlock<T> block)
        where T : unmanaged
    {
        Check(block, integer: false);
        var frames = 0;
        for (var done = 0; done < block.Length; done += frames)
        {
            frames = Room(block.Length - done);
            SampleEncoder.Encode(block, done, frames, _options.Format, _buffer.AsSpan(_buffered, frames * _frameBytes));
            _buffered += frames * _frameBytes;
        }
    }

    private void Check<T>(PlanarBlock<T> block, bool integer)
        where T : unmanaged
    {
        ArgumentNullException.ThrowIfNull(block);
        ThrowIfComplete();
        if (block.ChannelCount != _options.ChannelCount)
            throw new ArgumentException($"the block has {block.ChannelCount} channels, the file {_options.ChannelCount}", nameof(block));
        if (_options.Format.IsInteger != integer)
            throw new InvalidOperationException(integer ? $"the file holds {_options.Format} samples, not steps" : $"the file holds {_options.Format} samples; quantise them first");
    }

    private int Room(int wanted)
    {
        if (_buffered == _buffer.Length)
            Flush();
        return Math.Min(wanted, (_buffer.Length - _buffered) / _frameBytes);
    }

    private void Flush()
    {
        if (_buffered == 0)
            return;
        _file.Write(_buffer.AsSpan(0, _buffered), _header.DataAt + _flushed);
        _flushed += _buffered;
        _buffered = 0;
    }

    private void ThrowIfComplete()
    {
        if (_complete)
            throw new InvalidOperationException($"'{Path}' is complete");
    }
}
