using Athwart.Recordings;

namespace Athwart.Jobs.Salvage;

/// <summary>Which damaged recording to save, and where to.</summary>
/// <param name="Damaged">The damaged file; it is only read.</param>
/// <param name="Target">The sound copy; null writes '<c>name salvaged.wav</c>' beside the damaged file.</param>
public sealed record SalvageRequest(string Damaged, string? Target);

/// <summary>Writes a sound copy of a damaged recording beside it, never touching the original.</summary>
public static class SalvageJob
{
    /// <summary>Saves every whole frame and every chunk that is intact.</summary>
    /// <exception cref="RecordingException">Nothing in the file can be a recording.</exception>
    /// <exception cref="JobException">The target exists, or is the damaged file itself.</exception>
    public static SalvageReport Run(SalvageRequest request, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        var target = request.Target ?? Path.Combine(
            Path.GetDirectoryName(Path.GetFullPath(request.Damaged))!,
            Path.GetFileNameWithoutExtension(request.Damaged) + " salvaged.wav");
        if (!File.Exists(request.Damaged))
            throw new JobException(JobErrorKind.WrongUse, $"'{request.Damaged}' does not exist.", "Name a recording.");
        if (File.Exists(target))
            throw new JobException(JobErrorKind.Refused, $"'{target}' exists already.", "Name another file with --to, or move that one away.");
        return Salvager.Write(request.Damaged, target, cancellation);
    }
}
