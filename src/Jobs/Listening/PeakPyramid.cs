using System.Buffers.Binary;
using Microsoft.Win32.SafeHandles;

namespace Athwart.Jobs.Listening;

/// <summary>The stored peaks of one take, open for reading by any number of threads.</summary>
/// <remarks>
/// The file: 8 letters, then little-endian the version, the sample rate, the finest level and the coarsest (32 bits each) and the
/// frames (64 bits), then the levels, finest first. It can be made again from the take at any time, so a file that is not
/// exactly as expected counts as absent.
/// </remarks>
public sealed class PeakPyramid : IDisposable
{
    internal const int HeaderBytes = 32;
    internal const int Version = 1;
    private static readonly byte[] Letters = "athwpeak"u8.ToArray();
    private readonly SafeFileHandle _file;

    private PeakPyramid(SafeFileHandle file, PeakLayout layout) => (_file, Layout) = (file, layout);

    /// <summary>How it is divided.</summary>
    public PeakLayout Layout { get; }

    /// <summary>Opens the file, or returns null when there is none that fits the take.</summary>
    /// <param name="path">The file.</param>
    /// <param name="frameCount">Frames of the take.</param>
    /// <param name="sampleRateHertz">Its rate.</param>
    public static PeakPyramid? TryOpen(string path, long frameCount, int sampleRateHertz)
    {
        if (!File.Exists(path))
            return null;
        var layout = new PeakLayout(frameCount);
        var file = File.OpenHandle(path, FileMode.Open, FileAccess.Read, FileShare.Read | FileShare.Delete);
        Span<byte> found = stackalloc byte[HeaderBytes];
        Span<byte> expected = stackalloc byte[HeaderBytes];
        WriteHeader(expected, layout, sampleRateHertz);
        if (RandomAccess.GetLength(file) == HeaderBytes + layout.StoredBytes && RandomAccess.Read(file, found, 0) == HeaderBytes && found.SequenceEqual(expected))
            return new(file, layout);
        file.Dispose();
        return null;
    }

    /// <summary>Reads bins of a stored level.</summary>
    /// <param name="level">A level from <see cref="PeakLayout.StoredLevel"/> to the top.</param>
    /// <param name="firstBin">The first bin, within the level.</param>
    /// <param name="bins">Receives whole bins of <see cref="PeakLayout.BinBytes"/> bytes.</param>
    /// <returns>The bins read: fewer only at the end of the level.</returns>
    public int Read(int level, long firstBin, Span<byte> bins)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(level, PeakLayout.StoredLevel);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(level, Layout.TopLevel);
        ArgumentOutOfRangeException.ThrowIfNegative(firstBin);
        var count = (int)Math.Clamp(Layout.Bins(level) - firstBin, 0, bins.Length / PeakLayout.BinBytes);
        var wanted = bins[..(count * PeakLayout.BinBytes)];
        var at = HeaderBytes + Layout.Offset(level) + (firstBin * PeakLayout.BinBytes);
        for (var done = 0; done < wanted.Length;)
        {
            var read = RandomAccess.Read(_file, wanted[done..], at + done);
            if (read == 0)
                throw new JobException(JobErrorKind.Storage, "The stored peaks of a take became shorter while they were read.", "Open the take again: they are made afresh.");
            done += read;
        }

        return count;
    }

    /// <summary>Closes the file.</summary>
    public void Dispose() => _file.Dispose();

    internal static void WriteHeader(Span<byte> header, PeakLayout layout, int sampleRateHertz)
    {
        header.Clear();
        Letters.CopyTo(header);
        BinaryPrimitives.WriteInt32LittleEndian(header[8..], Version);
        BinaryPrimitives.WriteInt32LittleEndian(header[12..], sampleRateHertz);
        BinaryPrimitives.WriteInt32LittleEndian(header[16..], PeakLayout.StoredLevel);
        BinaryPrimitives.WriteInt32LittleEndian(header[20..], layout.TopLevel);
        BinaryPrimitives.WriteInt64LittleEndian(header[24..], layout.FrameCount);
    }
}
