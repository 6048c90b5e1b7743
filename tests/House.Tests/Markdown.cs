using System.Text;
using System.Text.RegularExpressions;

namespace Athwart.House.Tests;

/// <summary>A fenced block: what stands after the fence, its lines, and where it stands.</summary>
internal sealed record FencedBlock(string File, int Line, string Info, IReadOnlyList<string> Lines);

/// <summary>A link in a page: where it stands and where it points.</summary>
internal sealed record PageLink(string File, int Line, string Target);

/// <summary>The little of Markdown that the house rules need: fences, links, headings and anchors.</summary>
internal static partial class Markdown
{
    public static IReadOnlyList<FencedBlock> Blocks(string file, string text)
    {
        var blocks = new List<FencedBlock>();
        List<string>? open = null;
        var (info, start) = ("", 0);
        foreach (var (number, line) in text.Split('\n').Index())
        {
            if (!line.StartsWith("```", StringComparison.Ordinal))
            {
                open?.Add(line.TrimEnd('\r'));
            }
            else if (open is null)
            {
                (open, info, start) = ([], line[3..].Trim(), number + 1);
            }
            else
            {
                blocks.Add(new(file, start, info, open));
                open = null;
            }
        }

        return open is null ? blocks : throw new FormatException($"{file}:{start}: a fence is opened and never closed");
    }

    public static IEnumerable<PageLink> Links(string file, string text)
    {
        var fenced = false;
        foreach (var (number, line) in text.Split('\n').Index())
        {
            fenced ^= line.StartsWith("```", StringComparison.Ordinal);
            if (fenced)
                continue;
            foreach (Match match in LinkPattern().Matches(InlineCode().Replace(line, "")))
                yield return new(file, number + 1, match.Groups["it"].Value);
        }
    }

    /// <summary>The anchors of a page: its headings as the common rule makes them, and written ones.</summary>
    public static IReadOnlySet<string> Anchors(string text)
    {
        var anchors = new HashSet<string>(StringComparer.Ordinal);
        foreach (Match match in WrittenAnchor().Matches(text))
            anchors.Add(match.Groups["it"].Value);
        foreach (var line in text.Split('\n').Where(line => line.StartsWith('#')))
            anchors.Add(AnchorOf(line.TrimStart('#').Trim()));
        return anchors;
    }

    private static string AnchorOf(string heading)
    {
        var anchor = new StringBuilder();
        foreach (var rune in heading)
        {
            if (char.IsLetterOrDigit(rune) || rune is '-' or '_')
                anchor.Append(char.ToLowerInvariant(rune));
            else if (rune == ' ')
                anchor.Append('-');
        }

        return anchor.ToString();
    }

    [GeneratedRegex(@"\]\((?<it>[^)\s]+)\)", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 10000)]
    private static partial Regex LinkPattern();

    [GeneratedRegex("`[^`]*`", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 10000)]
    private static partial Regex InlineCode();

    [GeneratedRegex("<a id=\"(?<it>[^\"]+)\"></a>", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 10000)]
    private static partial Regex WrittenAnchor();
}
