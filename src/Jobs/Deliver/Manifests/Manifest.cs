using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Serialization;
using Athwart.Jobs.Storage;

namespace Athwart.Jobs.Deliver.Manifests;

/// <summary>What a delivery holds: every file with its size and SHA-256. docs/manifest.md documents the JSON and the CSV.</summary>
public sealed record Manifest
{
    /// <summary>The file name of the JSON inside the delivery.</summary>
    public const string FileName = "manifest.json";

    /// <summary>The file name of the same as a table.</summary>
    public const string TableFileName = "manifest.csv";

    /// <summary>The version written by this program.</summary>
    public const int CurrentVersion = 1;

    /// <summary>The version of this layout; a newer one is refused.</summary>
    [JsonPropertyName("athwartManifest")]
    public int Version { get; init; } = CurrentVersion;

    /// <summary>What the delivery is called.</summary>
    public required string Title { get; init; }

    /// <summary>When it was finished, ISO 8601 with offset.</summary>
    public required string Created { get; init; }

    /// <summary>The program that wrote it, with its version.</summary>
    public required string Program { get; init; }

    /// <summary>Every file but the manifest itself, in ordinal order of path.</summary>
    public required IReadOnlyList<ManifestFile> Files { get; init; }

    /// <summary>SHA-256 over <see cref="Files"/>, so that a changed manifest is noticed too.</summary>
    public required string Digest { get; init; }

    /// <summary>The digest of a list of files: SHA-256 of one line each, <c>sha256 bytes path</c>, in ordinal order of path.</summary>
    public static string DigestOf(IEnumerable<ManifestFile> files)
    {
        var lines = new StringBuilder();
        foreach (var file in files.OrderBy(f => f.Path, StringComparer.Ordinal))
            lines.Append(file.Sha256).Append(' ').Append(file.Bytes).Append(' ').Append(file.Path).Append('\n');
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(lines.ToString())));
    }
}

/// <summary>One file of a delivery.</summary>
public sealed record ManifestFile
{
    /// <summary>The path from the delivery's folder, with '/' between folders.</summary>
    public required string Path { get; init; }

    /// <summary>What it is: stereo, midside, mono, recipe, report or table.</summary>
    public required string Kind { get; init; }

    /// <summary>The effect it belongs to; null for the report.</summary>
    public string? Effect { get; init; }

    /// <summary>Its length in bytes.</summary>
    public required long Bytes { get; init; }

    /// <summary>SHA-256, 64 lower-case hexadecimal digits.</summary>
    public required string Sha256 { get; init; }

    /// <summary>Channels; null when it is not sound.</summary>
    public int? Channels { get; init; }

    /// <summary>Sample rate in hertz; null when it is not sound.</summary>
    public int? SampleRateHertz { get; init; }

    /// <summary>The word, such as s24; null when it is not sound.</summary>
    public string? Word { get; init; }

    /// <summary>Length in frames; null when it is not sound.</summary>
    public long? Frames { get; init; }

    /// <summary>Integrated loudness in LUFS; null when it is not sound or was all below the gate.</summary>
    public double? LoudnessLufs { get; init; }

    /// <summary>True peak in dBTP; null when it is not sound or silent.</summary>
    public double? TruePeakDbtp { get; init; }

    /// <summary>Side level in decibels; null when it does not apply, or for mono.</summary>
    public double? SideLevelDecibels { get; init; }

    /// <summary>True where the side was made up from the mid; null otherwise.</summary>
    public bool? SideMadeUp { get; init; }

    /// <summary>A file that is no sound, as it lies in the folder of the delivery.</summary>
    internal static ManifestFile Of(string folder, string file, string kind)
    {
        var path = System.IO.Path.Combine(folder, file);
        return new() { Path = file, Kind = kind, Bytes = new FileInfo(path).Length, Sha256 = WholeFile.Sha256(path) };
    }
}
