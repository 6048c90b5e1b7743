using System.Globalization;

namespace Athwart.Microphones.Patterns;

/// <summary>The words and numbers by which a first-order pattern is called.</summary>
public static class PatternNames
{
    /// <summary>What a message says when a word is not understood.</summary>
    public const string Remedy = "use omni, subcardioid (or wide cardioid), cardioid, supercardioid, hypercardioid, figure-8, or an omni share from 0 (figure-8) to 1 (omni), such as 0.6";

    private const string SharePrefix = "omni share";

    /// <summary>
    /// Reads a name ('cardioid', 'figure-8', 'figure of eight', 'bidirectional', ...) or an omni share ('0.6', 'omni share 0.6',
    /// '60 %'); letter case, blanks, hyphens and underscores make no difference. Invariant culture.
    /// </summary>
    /// <returns>False when the text is empty, no known name, or a share outside 0 to 1; say <see cref="Remedy"/> then.</returns>
    public static bool TryParse(string? text, out FirstOrderPattern pattern)
    {
        pattern = FirstOrderPattern.Omni;
        if (string.IsNullOrWhiteSpace(text))
            return false;
        var known = Named(Plain(text));
        if (known is null && TryParseShare(text.Trim(), out var share))
            known = new FirstOrderPattern(share);
        pattern = known ?? pattern;
        return known is not null;
    }

    private static FirstOrderPattern? Named(string plain) => plain switch
    {
        "omni" or "omnidirectional" => FirstOrderPattern.Omni,
        "subcardioid" or "widecardioid" => FirstOrderPattern.Subcardioid,
        "cardioid" => FirstOrderPattern.Cardioid,
        "supercardioid" => FirstOrderPattern.Supercardioid,
        "hypercardioid" => FirstOrderPattern.Hypercardioid,
        "figure8" or "figureeight" or "figureof8" or "figureofeight" or "fig8" or "bidirectional" => FirstOrderPattern.FigureEight,
        _ => null,
    };

    private static bool TryParseShare(string text, out double share)
    {
        if (text.StartsWith(SharePrefix, StringComparison.OrdinalIgnoreCase))
            text = text[SharePrefix.Length..].TrimStart(' ', '=', ':');
        var percent = text.EndsWith('%');
        var read = double.TryParse(percent ? text[..^1].TrimEnd() : text, NumberStyles.Float, CultureInfo.InvariantCulture, out share);
        share /= percent ? 100 : 1;
        return read && share is >= 0 and <= 1;
    }

    private static string Plain(string text) => string.Concat(text.Where(c => c is not (' ' or '-' or '_' or '‑'))).ToLowerInvariant();
}
