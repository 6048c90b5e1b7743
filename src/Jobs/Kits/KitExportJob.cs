using System.Text;
using Athwart.Catalogue;
using Athwart.Jobs.Storage;
using Athwart.Microphones.Equipment;

namespace Athwart.Jobs.Kits;

/// <summary>Where the kit is written.</summary>
/// <param name="Library">The library's folder.</param>
/// <param name="Target">A file that ends in .json, or a folder for three CSV files.</param>
/// <param name="Overwrite">Whether files that are there are replaced.</param>
public sealed record KitExportRequest(string Library, string Target, bool Overwrite);

/// <summary>What was written.</summary>
/// <param name="Files">The files, full paths.</param>
/// <param name="Kit">What is in them.</param>
public sealed record KitExportReport(IReadOnlyList<string> Files, Kit Kit);

/// <summary>Writes the kit as JSON or as CSV; importing that gives the same kit.</summary>
public static class KitExportJob
{
    /// <summary>Writes the files; each appears whole or not at all.</summary>
    /// <exception cref="JobException">A file is there already; the target is neither a JSON file nor a folder; it cannot be written.</exception>
    /// <exception cref="LibraryException">The library cannot be used.</exception>
    public static KitExportReport Run(KitExportRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var kit = KitStore.Load(request.Library);
        var files = Files(kit, Path.GetFullPath(request.Target));
        if (!request.Overwrite && files.Find(f => File.Exists(f.Path)) is { Path: not null } there)
            throw new JobException(JobErrorKind.Refused, $"'{there.Path}' exists already.", "Name another target, or replace it with --overwrite.");
        try
        {
            foreach (var (path, text) in files)
            {
                Directory.CreateDirectory(Path.GetDirectoryName(path)!);
                WholeFile.Write(path, Encoding.UTF8.GetBytes(text));
            }
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new JobException(JobErrorKind.Storage, $"'{request.Target}' cannot be written ({error.Message}).", "Check the rights of the folder and the disk it is on.", error);
        }

        return new([.. files.Select(f => f.Path)], kit);
    }

    /// <summary>The kit as text: JSON, or one of the three tables as CSV.</summary>
    /// <param name="kit">The kit.</param>
    /// <param name="name">'kit.json', 'microphones.csv', 'recorders.csv' or 'protections.csv'.</param>
    /// <returns>The text; null for any other name.</returns>
    public static string? Text(Kit kit, string name)
    {
        ArgumentNullException.ThrowIfNull(kit);
        return string.Equals(name, "kit.json", StringComparison.Ordinal)
            ? KitJson.Write(kit) + "\n"
            : CsvKitWriter.Write(kit).Where(f => string.Equals(f.Name, name, StringComparison.Ordinal)).Select(f => f.Text).FirstOrDefault();
    }

    private static List<(string Path, string Text)> Files(Kit kit, string target) => Path.GetExtension(target).ToLowerInvariant() switch
    {
        ".json" => [(target, KitJson.Write(kit) + "\n")],
        "" => [.. CsvKitWriter.Write(kit).Select(f => (Path.Combine(target, f.Name), f.Text))],
        _ when Directory.Exists(target) => [.. CsvKitWriter.Write(kit).Select(f => (Path.Combine(target, f.Name), f.Text))],
        var extension => throw new JobException(JobErrorKind.WrongUse, $"'{target}' ends in '{extension}', and a kit is written as one .json file or as three CSV files.", "Name a file that ends in .json, or a folder for microphones.csv, recorders.csv and protections.csv."),
    };
}
