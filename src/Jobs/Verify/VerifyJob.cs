using Athwart.Jobs.Deliver.Manifests;
using Athwart.Jobs.Progress;
using Athwart.Jobs.Storage;

namespace Athwart.Jobs.Verify;

/// <summary>Which delivery to verify.</summary>
/// <param name="Folder">The folder that 'deliver' wrote.</param>
public sealed record VerifyRequest(string Folder);

/// <summary>What is wrong with one file of a delivery.</summary>
public enum VerifyVerdict
{
    /// <summary>The content is not what was delivered.</summary>
    Changed = 0,

    /// <summary>The manifest names it and it is not there.</summary>
    Missing,

    /// <summary>It is there and the manifest does not name it.</summary>
    Added,

    /// <summary>It is there and cannot be read.</summary>
    Unreadable,
}

/// <summary>One difference between a delivery and its manifest.</summary>
/// <param name="Path">The path from the delivery's folder.</param>
/// <param name="Verdict">What is wrong.</param>
/// <param name="Detail">The numbers: sizes or hashes, or the system's words.</param>
public sealed record VerifyDifference(string Path, VerifyVerdict Verdict, string Detail);

/// <summary>What was verified and what differed.</summary>
/// <param name="Folder">The delivery.</param>
/// <param name="FilesSound">Files that are as delivered.</param>
/// <param name="Differences">Everything else, in ordinal order of path.</param>
public sealed record VerifyReport(string Folder, int FilesSound, IReadOnlyList<VerifyDifference> Differences)
{
    /// <summary>Whether the delivery is as it was.</summary>
    public bool IsSound => Differences.Count == 0;
}

/// <summary>Finds every changed, missing or added file of a delivery.</summary>
public static class VerifyJob
{
    /// <summary>Reads every file again and compares it with the manifest.</summary>
    /// <exception cref="JobException">The folder has no readable manifest.</exception>
    public static VerifyReport Run(VerifyRequest request, IProgress<JobProgress>? progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        var manifest = ManifestFiles.Read(request.Folder);
        var differences = new List<VerifyDifference>();
        var digest = Manifest.DigestOf(manifest.Files);
        if (!string.Equals(digest, manifest.Digest, StringComparison.Ordinal))
            differences.Add(new(Manifest.FileName, VerifyVerdict.Changed, "its list of files is not the one that was delivered"));
        var total = manifest.Files.Sum(f => f.Bytes);
        long done = 0;
        foreach (var file in manifest.Files)
        {
            var difference = Compare(request.Folder, file, n => progress?.Report(new("Verifying " + file.Path, done += n, total, "bytes")), cancellation);
            if (difference is not null)
                differences.Add(difference);
        }

        var sound = manifest.Files.Count - differences.Count(d => !string.Equals(d.Path, Manifest.FileName, StringComparison.Ordinal));
        differences.AddRange(Added(request.Folder, manifest));
        return new(request.Folder, sound, [.. differences.OrderBy(d => d.Path, StringComparer.Ordinal)]);
    }

    private static VerifyDifference? Compare(string folder, ManifestFile file, Action<long> advanced, CancellationToken cancellation)
    {
        var path = Path.GetFullPath(Path.Combine(folder, file.Path));
        // A manifest from elsewhere must not make us read outside the delivery.
        if (!path.StartsWith(Path.GetFullPath(folder) + Path.DirectorySeparatorChar, StringComparison.Ordinal))
            return new(file.Path, VerifyVerdict.Unreadable, "the manifest names a file outside the delivery");
        if (!File.Exists(path))
            return new(file.Path, VerifyVerdict.Missing, "not in the folder");
        try
        {
            var length = new FileInfo(path).Length;
            if (length != file.Bytes)
                return new(file.Path, VerifyVerdict.Changed, $"{length} bytes, {file.Bytes} delivered");
            var hash = WholeFile.Sha256(path, advanced, cancellation);
            return string.Equals(hash, file.Sha256, StringComparison.OrdinalIgnoreCase)
                ? null
                : new(file.Path, VerifyVerdict.Changed, $"SHA-256 {hash[..12]}…, {file.Sha256[..Math.Min(12, file.Sha256.Length)]}… delivered");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new(file.Path, VerifyVerdict.Unreadable, e.Message);
        }
    }

    private static IEnumerable<VerifyDifference> Added(string folder, Manifest manifest)
    {
        var known = manifest.Files.Select(f => f.Path).Append(Manifest.FileName).ToHashSet(StringComparer.Ordinal);
        return Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories)
            .Select(p => Path.GetRelativePath(folder, p).Replace(Path.DirectorySeparatorChar, '/'))
            .Where(p => !known.Contains(p))
            .Select(p => new VerifyDifference(p, VerifyVerdict.Added, "not in the manifest"));
    }
}
