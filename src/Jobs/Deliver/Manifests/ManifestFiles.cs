using System.Globalization;
using System.Text;
using System.Text.Json;
using Athwart.Jobs.Storage;

namespace Athwart.Jobs.Deliver.Manifests;

/// <summary>Reads and writes the manifest of a delivery, as JSON and as a table.</summary>
public static class ManifestFiles
{
    /// <summary>Reads the manifest of a delivered folder.</summary>
    /// <exception cref="JobException">There is none, it is damaged, or it was written by a newer program.</exception>
    public static Manifest Read(string folder)
    {
        var path = Path.Combine(folder, Manifest.FileName);
        if (!File.Exists(path))
            throw new JobException(JobErrorKind.WrongUse, $"'{folder}' holds no {Manifest.FileName}.", "Name a folder that 'deliver' wrote.");
        try
        {
            using var stream = File.OpenRead(path);
            var manifest = JsonSerializer.Deserialize(stream, ManifestJson.Readable.Manifest)
                ?? throw new JsonException("the file holds null");
            return manifest.Version <= Manifest.CurrentVersion
                ? manifest
                : throw new JobException(JobErrorKind.WrongUse, $"'{path}' was written by a newer Athwart (layout {manifest.Version}, this one knows {Manifest.CurrentVersion}).", "Update Athwart.");
        }
        catch (JsonException e)
        {
            throw new JobException(JobErrorKind.Storage, $"'{path}' is damaged: {e.Message}", "Restore it from a copy of the delivery.", e);
        }
    }

    /// <summary>Writes both files; each appears whole or not at all.</summary>
    public static void Write(string folder, Manifest manifest)
    {
        ArgumentNullException.ThrowIfNull(manifest);
        WholeFile.Write(Path.Combine(folder, Manifest.FileName), JsonSerializer.SerializeToUtf8Bytes(manifest, ManifestJson.Readable.Manifest));
    }

    /// <summary>The table: one line a file, a heading line first, comma-separated, quoted where needed (RFC 4180), UTF-8.</summary>
    public static string Table(IEnumerable<ManifestFile> files)
    {
        ArgumentNullException.ThrowIfNull(files);
        var table = new StringBuilder("path,kind,effect,bytes,sha256,channels,sample_rate_hz,word,frames,loudness_lufs,true_peak_dbtp,side_level_db\r\n");
        foreach (var f in files)
            table.AppendJoin(',', Cells(f).Select(Quote)).Append("\r\n");
        return table.ToString();
    }

    private static string[] Cells(ManifestFile f) =>
    [
        f.Path, f.Kind, f.Effect ?? "", Text(f.Bytes), f.Sha256, Text(f.Channels), Text(f.SampleRateHertz), f.Word ?? "",
        Text(f.Frames), Text(f.LoudnessLufs), Text(f.TruePeakDbtp), Text(f.SideLevelDecibels),
    ];

    private static string Text(IFormattable? value) => value switch
    {
        null => "",
        double d => d.ToString("0.##", CultureInfo.InvariantCulture),
        _ => value.ToString(null, CultureInfo.InvariantCulture),
    };

    // A cell that begins like a formula is quoted with an apostrophe, so that no spreadsheet runs a file name.
    private static string Quote(string cell)
    {
        if (cell.Length > 0 && cell[0] is '=' or '@' or '\t' or '+')
            cell = "'" + cell;
        return cell.AsSpan().IndexOfAny(",\"\r\n") >= 0 ? "\"" + cell.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"" : cell;
    }
}
