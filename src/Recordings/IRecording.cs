namespace Athwart.Recordings;

/// <summary>A continuous stretch of sound with one format, in one file or several.</summary>
/// <remarks>Every read names its place, so one recording may be read by several threads at once. Reads allocate nothing; they rent buffers.</remarks>
public interface IRecording : IDisposable
{
    /// <summary>The number of channels, 1 to 64 in a file.</summary>
    int ChannelCount { get; }

    /// <summary>Frames a second, 8000 to 768000.</summary>
    int SampleRateHertz { get; }

    /// <summary>How samples are stored.</summary>
    SampleFormat Format { get; }

    /// <summary>The number of whole frames, 0 or more.</summary>
    long FrameCount { get; }

    /// <summary>Reads samples with full scale ±1: integer steps divided by 2^(container bits − 1), rounded to nearest where a float cannot hold them (32-bit integer, 64-bit float).</summary>
    /// <param name="firstFrame">The first frame wanted, 0 or more; at or past the end nothing is read.</param>
    /// <param name="frameCount">Frames wanted, 0 to the capacity of the block.</param>
    /// <param name="block">Receives the samples; its channel count must be that of the recording; its Length is set.</param>
    /// <returns>The frames read: fewer than wanted only at the end.</returns>
    /// <exception cref="RecordingException">The file became shorter since it was opened, or its coded data is damaged.</exception>
    int Read(long firstFrame, int frameCount, PlanarBlock<float> block);

    /// <summary>Reads samples with full scale ±1, exact for every format.</summary>
    /// <inheritdoc cref="Read(long, int, PlanarBlock{float})"/>
    int Read(long firstFrame, int frameCount, PlanarBlock<double> block);

    /// <summary>Reads samples of an integer format in steps of the container word, full scale 2^(container bits − 1); unsigned 8-bit words are re-centred to −128…127.</summary>
    /// <inheritdoc cref="Read(long, int, PlanarBlock{float})"/>
    /// <exception cref="InvalidOperationException">The format is float.</exception>
    int Read(long firstFrame, int frameCount, PlanarBlock<int> block);

    /// <summary>Reads container words as a WAVE file stores them: interleaved, little-endian, 8-bit unsigned.</summary>
    /// <param name="firstFrame">The first frame wanted, 0 or more.</param>
    /// <param name="frameCount">Frames wanted.</param>
    /// <param name="interleaved">Receives frames × channels × bytes a sample; must be long enough for <paramref name="frameCount"/>.</param>
    /// <returns>The frames read: fewer than wanted only at the end.</returns>
    int ReadBytes(long firstFrame, int frameCount, Span<byte> interleaved);
}
