using System.Globalization;

namespace Athwart.Jobs.Kits;

/// <summary>Finds and loads the files of a kit.</summary>
internal static class KitFiles
{
    // A thousand microphones are about 200 kB.
    private const int LargestBytes = 8 * 1024 * 1024;

    private static readonly string[] Extensions = [".csv", ".json", ".txt", ".tsv"];

    public static IReadOnlyList<string> Find(IReadOnlyList<string> paths)
    {
        var files = new List<string>();
        foreach (var path in paths)
        {
            if (File.Exists(path))
                files.Add(path);
            else if (!Directory.Exists(path))
                throw new JobException(JobErrorKind.WrongUse, $"There is no file '{path}'.", "Name a CSV or JSON file of a kit, or a folder of them.");
            else if (InFolder(path) is { Count: > 0 } found)
                files.AddRange(found);
            else
                throw new JobException(JobErrorKind.WrongUse, $"The folder '{path}' holds no CSV and no JSON file.", "Name another, or the files themselves.");
        }

        return files;
    }

    public static byte[] Load(string path)
    {
        try
        {
            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
            if (file.Length > LargestBytes)
                throw new JobException(JobErrorKind.WrongUse, string.Create(CultureInfo.InvariantCulture, $"'{path}' has {file.Length} bytes; no kit is as large as that."), "Name a CSV or JSON file of a kit.");
            var bytes = new byte[file.Length];
            file.ReadExactly(bytes);
            return bytes;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new JobException(JobErrorKind.Storage, $"'{path}' cannot be read ({error.Message}).", "Check the rights of the file and the disk it is on.", error);
        }
    }

    /// <summary>Reads one file by what it holds, not by its name: JSON begins with a brace or bracket.</summary>
    public static void Read(string path, ReadOnlySpan<byte> bytes, KitReading reading)
    {
        if (KitText.Decode(path, bytes, reading) is not { } text)
            return;
        if (text.AsSpan().TrimStart() is ['{' or '[', ..])
            JsonKitReader.Read(path, text, reading);
        else
            CsvReader.Read(path, text, reading);
    }

    private static List<string> InFolder(string folder) =>
        [.. Directory.EnumerateFiles(folder).Where(f => Array.IndexOf(Extensions, Path.GetExtension(f).ToLowerInvariant()) >= 0).Order(StringComparer.Ordinal)];
}
