using System.Buffers;

namespace Athwart.Recordings;

/// <summary>A take opened for reading: its files as one recording, without a missing or doubled sample.</summary>
public sealed class Take : IRecording
{
    private readonly RecordingFile[] _files;

    internal Take(TakeDescription description)
    {
        Description = description;
        _files = new RecordingFile[description.Parts.Count];
        try
        {
            for (var i = 0; i < _files.Length; i++)
                _files[i] = OpenPart(description.Parts[i]);
        }
        catch
        {
            Dispose();
            throw;
        }
    }

    /// <summary>What it is made of.</summary>
    public TakeDescription Description { get; }

    /// <inheritdoc/>
    public int ChannelCount => Description.ChannelCount;

    /// <inheritdoc/>
    public int SampleRateHertz => Description.SampleRateHertz;

    /// <inheritdoc/>
    public SampleFormat Format => Description.Format;

    /// <inheritdoc/>
    public long FrameCount => Description.FrameCount;

    /// <summary>The files, in the order of the parts of the description.</summary>
    public IReadOnlyList<RecordingFile> Files => _files;

    /// <inheritdoc/>
    public int Read(long firstFrame, int frameCount, PlanarBlock<float> block)
    {
        ReadArguments.Check(this, firstFrame, frameCount, block);
        var frames = Within(firstFrame, frameCount);
        foreach (var piece in Pieces(firstFrame, frames))
            piece.File.Samples.Read(piece.FirstInFile, piece.Frames, new BlockTarget<float>(block, piece.Channel, piece.At));
        return block.Length = frames;
    }

    /// <inheritdoc/>
    public int Read(long firstFrame, int frameCount, PlanarBlock<double> block)
    {
        ReadArguments.Check(this, firstFrame, frameCount, block);
        var frames = Within(firstFrame, frameCount);
        foreach (var piece in Pieces(firstFrame, frames))
            piece.File.Samples.Read(piece.FirstInFile, piece.Frames, new BlockTarget<double>(block, piece.Channel, piece.At));
        return block.Length = frames;
    }

    /// <inheritdoc/>
    public int Read(long firstFrame, int frameCount, PlanarBlock<int> block)
    {
        ReadArguments.Check(this, firstFrame, frameCount, block);
        var frames = Within(firstFrame, frameCount);
        foreach (var piece in Pieces(firstFrame, frames))
            piece.File.Samples.Read(piece.FirstInFile, piece.Frames, new BlockTarget<int>(block, piece.Channel, piece.At));
        return block.Length = frames;
    }

    /// <inheritdoc/>
    public int ReadBytes(long firstFrame, int frameCount, Span<byte> interleaved)
    {
        ReadArguments.Check(this, firstFrame, frameCount, interleaved);
        var frames = Within(firstFrame, frameCount);
        var frameBytes = ChannelCount * Format.BytesPerSample;
        foreach (var piece in Pieces(firstFrame, frames))
        {
            var target = interleaved.Slice(piece.At * frameBytes, piece.Frames * frameBytes);
            if (piece.File.ChannelCount == ChannelCount)
                piece.File.Samples.ReadBytes(piece.FirstInFile, piece.Frames, target);
            else
                Weave(piece, target);
        }

        return frames;
    }

    /// <summary>Closes the files.</summary>
    public void Dispose()
    {
        foreach (var file in _files)
            file?.Dispose();
    }

    private static RecordingFile OpenPart(TakePart part)
    {
        var file = RecordingFile.Open(part.Path);
        if (file.FrameCount == part.FrameCount && file.ChannelCount == part.ChannelCount)
            return file;
        file.Dispose();
        throw new RecordingException(RecordingErrorKind.Malformed, part.Path, $"the file had {part.FrameCount} frames when its take was put together and has {file.FrameCount} now", "Something changed it; take it in again");
    }

    private int Within(long firstFrame, int frameCount) => (int)Math.Clamp(FrameCount - firstFrame, 0, frameCount);

    /// <summary>The stretches of files that make up a stretch of the take.</summary>
    private List<Piece> Pieces(long firstFrame, int frames)
    {
        var pieces = new List<Piece>(2);
        for (var i = 0; i < _files.Length; i++)
        {
            var part = Description.Parts[i];
            var from = Math.Max(firstFrame, part.FirstFrame);
            var to = Math.Min(firstFrame + frames, part.FirstFrame + part.FrameCount);
            if (from < to)
                pieces.Add(new(_files[i], from - part.FirstFrame, (int)(to - from), part.FirstChannel, (int)(from - firstFrame)));
        }

        return pieces;
    }

    /// <summary>Puts the words of one file into its channels of an interleaved stretch.</summary>
    private void Weave(Piece piece, Span<byte> target)
    {
        var (wordBytes, width) = (Format.BytesPerSample, piece.File.ChannelCount * Format.BytesPerSample);
        var perRead = Math.Max(1, WaveSamples.BufferBytes / width);
        var buffer = ArrayPool<byte>.Shared.Rent(Math.Min(perRead, piece.Frames) * width);
        for (var done = 0; done < piece.Frames; done += perRead)
        {
            var frames = Math.Min(perRead, piece.Frames - done);
            piece.File.Samples.ReadBytes(piece.FirstInFile + done, frames, buffer);
            for (var i = 0; i < frames; i++)
                buffer.AsSpan(i * width, width).CopyTo(target[((((done + i) * ChannelCount) + piece.Channel) * wordBytes)..]);
        }

        ArrayPool<byte>.Shared.Return(buffer);
    }

    private readonly record struct Piece(RecordingFile File, long FirstInFile, int Frames, int Channel, int At);
}
