using Athwart.Recordings;

namespace Athwart.Jobs;

/// <summary>Turns files and folders named by a person into the recordings they mean.</summary>
public static class RecordingPaths
{
    /// <summary>A file is taken whatever its name; a folder gives the recordings below it, in ordinal order, hidden files left out.</summary>
    /// <exception cref="JobException">A path does not exist, or nothing was found.</exception>
    public static IReadOnlyList<string> Find(IReadOnlyList<string> paths)
    {
        var found = new List<string>();
        foreach (var path in paths)
        {
            if (Directory.Exists(path))
                found.AddRange(Below(path));
            else if (File.Exists(path))
                found.Add(path);
            else
                throw new JobException(JobErrorKind.WrongUse, $"'{path}' does not exist.", "Name a recording or a folder of recordings.");
        }

        return found.Count > 0
            ? found.Distinct(StringComparer.Ordinal).ToList()
            : throw new JobException(JobErrorKind.WrongUse, $"No recording was found in {string.Join(", ", paths.Select(p => $"'{p}'"))}.", "Recordings end in .wav, .bwf, .rf64, .flac, .aif or .aiff.");
    }

    private static IEnumerable<string> Below(string folder) =>
        Directory.EnumerateFiles(folder, "*", new EnumerationOptions { RecurseSubdirectories = true, IgnoreInaccessible = false, AttributesToSkip = FileAttributes.ReparsePoint })
            .Where(p => RecordingNames.LooksLikeRecording(p) && !RecordingNames.IsHidden(p))
            .Order(StringComparer.Ordinal);
}
