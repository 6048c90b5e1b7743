using System.Globalization;
using System.Text;

namespace Athwart.Jobs.Deliver.Naming;

/// <summary>A file name with places to fill in, such as <c>{date}_{take}_{effect}_{kind}</c>.</summary>
/// <remarks>
/// A token is a word in braces; <c>{index:000}</c> pads a number. Doubled braces stand for themselves. A template is
/// data: it can be kept in a file and changed without changing the program. docs/deliver.md lists the tokens.
/// </remarks>
public sealed class NameTemplate
{
    private readonly List<Piece> _pieces;

    private NameTemplate(string text, List<Piece> pieces)
    {
        Text = text;
        _pieces = pieces;
    }

    /// <summary>The name used unless another is given.</summary>
    public const string Default = "{date}_{take}_{effect}_{kind}";

    /// <summary>The words that may stand in braces.</summary>
    public static IReadOnlyList<string> Tokens { get; } =
        ["project", "session", "date", "time", "scene", "take", "effect", "kind", "index", "side", "rate", "word", "category", "recordist"];

    /// <summary>The template as it was written.</summary>
    public string Text { get; }

    /// <summary>Reads a template.</summary>
    /// <exception cref="JobException">A brace is not closed, or a word in braces is no token.</exception>
    public static NameTemplate Parse(string text)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(text);
        var pieces = new List<Piece>();
        var literal = new StringBuilder();
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            if (c is '{' or '}' && i + 1 < text.Length && text[i + 1] == c)
            {
                literal.Append(c);
                i++;
            }
            else if (c == '{')
            {
                i = ReadToken(text, i, pieces, literal);
            }
            else if (c == '}')
            {
                throw Wrong(text, i, "a closing brace without an opening one");
            }
            else
            {
                literal.Append(c);
            }
        }

        Flush(pieces, literal);
        return new(text, pieces);
    }

    /// <summary>Whether the template tells the stereo, the raw pair and the mono apart.</summary>
    public bool NamesKind => _pieces.Any(p => string.Equals(p.Token, "kind", StringComparison.Ordinal));

    /// <summary>Fills the template; an absent value leaves nothing, and separators that then meet become one.</summary>
    /// <param name="values">The value of each token; numbers for <c>index</c> as invariant digits.</param>
    public string Fill(IReadOnlyDictionary<string, string> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        var name = new StringBuilder();
        foreach (var piece in _pieces)
            name.Append(piece.Token is null ? piece.Literal : Value(piece, values));
        return Tidy(name.ToString());
    }

    private static string Value(Piece piece, IReadOnlyDictionary<string, string> values)
    {
        var value = values.GetValueOrDefault(piece.Token!, "");
        return piece.Format.Length > 0 && long.TryParse(value, NumberStyles.Integer, CultureInfo.InvariantCulture, out var number)
            ? number.ToString(piece.Format, CultureInfo.InvariantCulture)
            : value;
    }

    private static int ReadToken(string text, int open, List<Piece> pieces, StringBuilder literal)
    {
        var close = text.IndexOf('}', open);
        if (close < 0)
            throw Wrong(text, open, "a brace that is not closed");
        var inside = text[(open + 1)..close].Split(':', 2);
        var token = inside[0].Trim();
        if (!Tokens.Contains(token, StringComparer.Ordinal))
            throw Wrong(text, open, $"'{{{token}}}', which is no token");
        var format = inside.Length > 1 ? inside[1] : "";
        if (format.Any(c => c != '0'))
            throw Wrong(text, open, $"the format '{format}', which may only be zeros");
        Flush(pieces, literal);
        pieces.Add(new("", token, format));
        return close;
    }

    private static void Flush(List<Piece> pieces, StringBuilder literal)
    {
        if (literal.Length > 0)
            pieces.Add(new(literal.ToString(), null, ""));
        literal.Clear();
    }

    private static JobException Wrong(string text, int position, string what) => new(
        JobErrorKind.WrongUse,
        string.Create(CultureInfo.InvariantCulture, $"The name template '{text}' has {what} at character {position + 1}."),
        "Use the tokens " + string.Join(", ", Tokens.Select(t => "{" + t + "}")) + ".");

    private static string Tidy(string name)
    {
        var tidy = new StringBuilder(name.Length);
        foreach (var c in name)
        {
            if (c is '_' or '-' && tidy.Length > 0 && tidy[^1] == c)
                continue;
            tidy.Append(c);
        }

        return tidy.ToString().Trim('_', '-', ' ');
    }

    private sealed record Piece(string Literal, string? Token, string Format);
}
