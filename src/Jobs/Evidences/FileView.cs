using System.Text.RegularExpressions;
using Athwart.Figures.Findings;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.Evidences;

/// <summary>What lies where in the file that a finding is about.</summary>
internal static partial class FileView
{
    public static string Draw(EvidenceCase found, FileContents file) =>
        FileMapFigure.Draw(EvidencePicture.Label(found), file.Name, file.Bytes, Declared(found.Finding, file.Stretches), Wrong(found.Finding), Says(found.Finding));

    /// <summary>The contents of a file; null when it cannot be opened.</summary>
    public static FileContents? Of(string path)
    {
        try
        {
            using var file = RecordingFile.Open(path);
            var stretches = file.Chunks.Select(c => new FileStretch(c.Id, c.DataOffset, c.Size, c.Size, c.Id.Trim() is "data" or "SSND")).ToList();
            if (stretches.Count == 0)
                stretches.Add(new("samples", 0, file.FileLength, file.FileLength, true));
            var end = stretches[^1].Offset + stretches[^1].Length;
            if (end < file.FileLength - 1)
                stretches.Add(new("rest", end, file.FileLength - end, file.FileLength - end, false));
            return new(Path.GetFileName(path), file.FileLength, stretches);
        }
        catch (Exception e) when (e is RecordingException or IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    // What the header says is among the evidence where it differs.
    private static IReadOnlyList<FileStretch> Declared(Finding finding, IReadOnlyList<FileStretch> stretches)
    {
        var says = finding.Evidence.FirstOrDefault(e => e.Unit is "bytes" && (e.Name.Contains("promise", StringComparison.Ordinal) || e.Name.Contains("header", StringComparison.Ordinal)));
        return says is null ? stretches : [.. stretches.Select(s => s.IsSound ? s with { Declared = (long)says.Value } : s)];
    }

    private static string Wrong(Finding finding) => finding.Kind switch
    {
        "bext-unreadable" => "bext",
        "ixml-unreadable" => "iXML",
        "trailing-bytes" => "rest",
        "header-disagrees" => "fmt",
        "chunk-cut-short" or "odd-padding" or "metadata-too-large" when Chunk().Match(finding.Message) is { Success: true } match => match.Groups["id"].Value,
        _ => "data",
    };

    private static string Says(Finding finding)
    {
        var sentence = finding.Message.Split(". ")[0].TrimEnd('.');
        return sentence.Length <= 110 ? sentence : sentence[..108] + "…";
    }

    [GeneratedRegex("chunk '(?<id>[^']+)'", RegexOptions.ExplicitCapture | RegexOptions.NonBacktracking)]
    private static partial Regex Chunk();
}
