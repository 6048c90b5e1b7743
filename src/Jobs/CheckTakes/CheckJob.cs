using System.Collections.Concurrent;
using Athwart.Jobs.Progress;
using Athwart.Jobs.Roles;
using Athwart.Recordings;

namespace Athwart.Jobs.CheckTakes;

/// <summary>Checks loose files and folders, without any library; every processor is kept busy across the takes.</summary>
public static class CheckJob
{
    /// <summary>Reads every take once and reports what was found.</summary>
    /// <exception cref="JobException">A path does not exist, or no recording was found.</exception>
    public static CheckReport Run(CheckRequest request, IProgress<JobProgress>? progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        var assembly = TakeAssembler.Assemble(RecordingPaths.Find(request.Paths), cancellation);
        var jobs = assembly.Takes
            .Select(t => (Take: t, Roles: RoleReader.Decide(t.Tracks, t.ChannelCount, request.TakeRoles, request.SessionRoles)))
            .ToList();
        return Run(jobs, assembly.Refused, new(request.SideLevel, request.Disturbances), request.Threads, progress, cancellation);
    }

    /// <summary>Checks takes whose roles are settled.</summary>
    internal static CheckReport Run(
        IReadOnlyList<(TakeDescription Take, RoleAssignment Roles)> takes,
        IReadOnlyList<RefusedFile> refused,
        TakeListening listening,
        int threads,
        IProgress<JobProgress>? progress,
        CancellationToken cancellation)
    {
        var total = takes.Sum(t => t.Take.FrameCount);
        long done = 0;
        var checks = new ConcurrentBag<TakeCheck>();
        // Longest first: the last processor to finish then waits the least.
        var queue = Partitioner.Create(takes.OrderByDescending(t => t.Take.FrameCount), EnumerablePartitionerOptions.NoBuffering);
        var options = new ParallelOptions { MaxDegreeOfParallelism = Math.Max(1, threads), CancellationToken = cancellation };
        Workers.ForEach(queue, options, item => checks.Add(TakeChecker.Check(
            item.Take,
            item.Roles,
            listening,
            n => progress?.Report(new("Checking " + item.Take.Name, Interlocked.Add(ref done, n), total, "frames")),
            cancellation)));
        var ordered = checks.OrderBy(c => c.Take.Name, StringComparer.Ordinal).ThenBy(c => c.Take.Parts[0].Path, StringComparer.Ordinal).ToList();
        return new(listening.SideLevel, SessionConsistency.Mark(SiblingDecodes.Mark(ordered, cancellation)), refused);
    }
}
