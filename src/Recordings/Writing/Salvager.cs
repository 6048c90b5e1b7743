using System.Buffers;
using Athwart.Quantities;

namespace Athwart.Recordings;

/// <summary>What a salvage did.</summary>
public sealed record SalvageReport
{
    /// <summary>The damaged file, untouched.</summary>
    public required string DamagedPath { get; init; }

    /// <summary>The sound copy.</summary>
    public required string TargetPath { get; init; }

    /// <summary>The frames that were saved.</summary>
    public required long FrameCount { get; init; }

    /// <summary>Frames a second.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>Names of the chunks carried along byte for byte, in the order of the file.</summary>
    public required IReadOnlyList<string> CarriedChunks { get; init; }

    /// <summary>Names of the chunks left out, because the file ends inside them or they are over 64 MiB.</summary>
    public required IReadOnlyList<string> LostChunks { get; init; }

    /// <summary>What was wrong.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }
}

/// <summary>Makes a sound copy of a damaged recording; the damaged file is only read.</summary>
public static class Salvager
{
    private const int ChunkLimit = 64 * 1024 * 1024;

    /// <summary>Copies every whole frame and every whole chunk into a new WAVE file with right sizes (RF64 past 4 GiB). A sound file is copied as well.</summary>
    /// <param name="damagedPath">The file to read.</param>
    /// <param name="targetPath">The file to make; must not exist.</param>
    /// <param name="cancellationToken">Stops between blocks; nothing is left behind.</param>
    /// <exception cref="RecordingException">There is no sound to be found.</exception>
    /// <exception cref="IOException">The target exists, or the disk refuses.</exception>
    public static SalvageReport Write(string damagedPath, string targetPath, CancellationToken cancellationToken)
    {
        using var damaged = RecordingFile.Open(damagedPath);
        var carried = damaged.Chunks.Where(Carries).ToList();
        var options = new WaveWriterOptions
        {
            ChannelCount = damaged.ChannelCount,
            SampleRateHertz = damaged.SampleRateHertz,
            Format = damaged.Format,
            ChannelMask = damaged.ChannelMask == 0 ? null : damaged.ChannelMask,
            Info = damaged.Chunks.Count == 0 ? damaged.Info : [],
            Extra = [.. carried.Select(c => new RawChunk(c.Id, damaged.ReadChunk(c, ChunkLimit)) { BeforeSamples = IsBeforeSamples(damaged, c) })],
        };
        using var writer = WaveWriter.Create(targetPath, options);
        Copy(damaged, writer, cancellationToken);
        writer.Complete();
        return new()
        {
            DamagedPath = damagedPath,
            TargetPath = targetPath,
            FrameCount = writer.FramesWritten,
            SampleRateHertz = damaged.SampleRateHertz,
            CarriedChunks = [.. carried.Select(c => c.Id)],
            LostChunks = [.. damaged.Chunks.Where(c => !IsOurs(c) && !Carries(c)).Select(c => FourCharacters.Show(c.Id))],
            Findings = damaged.Findings,
        };
    }

    /// <summary>Chunks that the writer makes itself, and filler.</summary>
    private static bool IsOurs(ChunkEntry chunk) => chunk.Id is "fmt " or "data" or "ds64" or "fact" || FourCharacters.IsFiller(chunk.Id);

    private static bool Carries(ChunkEntry chunk) => chunk.IsWhole && chunk.Size <= ChunkLimit && !IsOurs(chunk);

    private static bool IsBeforeSamples(RecordingFile file, ChunkEntry chunk) => chunk.DataOffset < file.Chunks.First(c => c.Id is "data").DataOffset;

    private static void Copy(RecordingFile from, WaveWriter to, CancellationToken cancellationToken)
    {
        var frameBytes = from.ChannelCount * from.Format.BytesPerSample;
        var perBlock = Math.Max(1, WaveSamples.BufferBytes / frameBytes);
        var buffer = ArrayPool<byte>.Shared.Rent(perBlock * frameBytes);
        try
        {
            for (long frame = 0; frame < from.FrameCount;)
            {
                cancellationToken.ThrowIfCancellationRequested();
                var frames = from.ReadBytes(frame, perBlock, buffer);
                to.WriteBytes(buffer.AsSpan(0, frames * frameBytes));
                frame += frames;
            }
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
        }
    }
}
