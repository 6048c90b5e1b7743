using Athwart.Jobs.Progress;
using Athwart.Jobs.Roles;
using Athwart.Recordings;

namespace Athwart.Jobs.Listening;

/// <summary>Makes the peaks of a take in one streamed read.</summary>
internal static class PeakJob
{
    // 64 bins of the finest stored level, so no bin is cut by a block.
    private const int BlockFrames = 65_536;

    /// <summary>Reads the take once and leaves the file at <paramref name="path"/>, whole or not at all.</summary>
    /// <param name="recording">The take.</param>
    /// <param name="roles">Which channel is which.</param>
    /// <param name="path">The file; its folder is made where it is missing.</param>
    /// <param name="progress">Told after each block, in frames.</param>
    /// <param name="cancellation">Ends it; nothing is left.</param>
    public static void Run(IRecording recording, RoleAssignment roles, string path, IProgress<JobProgress>? progress, CancellationToken cancellation)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        // A name of its own: two programs may make the same peaks at once, and either result is right.
        var unfinished = $"{path}.{Guid.NewGuid():N}.part";
        try
        {
            Write(recording, roles, unfinished, progress, cancellation);
            File.Move(unfinished, path, overwrite: true);
        }
        finally
        {
            File.Delete(unfinished);
        }
    }

    private static void Write(IRecording recording, RoleAssignment roles, string path, IProgress<JobProgress>? progress, CancellationToken cancellation)
    {
        var layout = new PeakLayout(recording.FrameCount);
        using var file = File.OpenHandle(path, FileMode.CreateNew, FileAccess.Write, FileShare.None, FileOptions.None, PeakPyramid.HeaderBytes + layout.StoredBytes);
        var header = new byte[PeakPyramid.HeaderBytes];
        PeakPyramid.WriteHeader(header, layout, recording.SampleRateHertz);
        RandomAccess.Write(file, header, 0);
        var writer = new PeakWriter(file, layout);
        long done = 0;
        RoleBlocks.ForEach(recording, roles, BlockFrames, (_, mid, side) =>
        {
            cancellation.ThrowIfCancellationRequested();
            AddBins(writer, mid, side);
            done += mid.Length;
            progress?.Report(new("Drawing the take", done, layout.FrameCount, "frames"));
        });
        if (done != layout.FrameCount)
            throw new JobException(JobErrorKind.Storage, $"The take gave {done} frames of {layout.FrameCount}.", "Verify the library: a file became shorter.");
        writer.Complete();
        RandomAccess.FlushToDisk(file);
    }

    private static void AddBins(PeakWriter writer, ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        var size = (int)PeakLayout.FramesPerBin(PeakLayout.StoredLevel);
        for (var at = 0; at < mid.Length; at += size)
        {
            var count = Math.Min(size, mid.Length - at);
            writer.Add(PeakSums.Of(mid.Slice(at, count), side.Slice(at, count)));
        }
    }
}
