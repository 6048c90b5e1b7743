using System.Security.Cryptography;
using System.Text;

namespace Athwart.Desk.Documents;

/// <summary>The content-security policy of a document of ours that carries its style inside: exactly that style is allowed, by its hash, and no script at all.</summary>
internal static class DocumentPolicy
{
    /// <summary>The policy for this text.</summary>
    public static string For(string html)
    {
        ArgumentNullException.ThrowIfNull(html);
        var hashes = new List<string>();
        hashes.AddRange(Between(html, "<style>", "</style>").Select(Hash));
        hashes.AddRange(Between(html, " style=\"", "\"").Distinct(StringComparer.Ordinal).Select(Hash));
        return "default-src 'none'; img-src data:; media-src 'self'; style-src 'unsafe-hashes' " + string.Join(' ', hashes) + "; frame-ancestors 'self'; base-uri 'none'; form-action 'none'";
    }

    private static string Hash(string text) => "'sha256-" + Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(text.ReplaceLineEndings("\n")))) + "'";

    private static IEnumerable<string> Between(string html, string open, string close)
    {
        for (var at = html.IndexOf(open, StringComparison.Ordinal); at >= 0; at = html.IndexOf(open, at, StringComparison.Ordinal))
        {
            at += open.Length;
            var end = html.IndexOf(close, at, StringComparison.Ordinal);
            if (end < 0)
                yield break;
            yield return html[at..end];
            at = end;
        }
    }
}
