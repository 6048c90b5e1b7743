using System.Globalization;
using System.Text;
using System.Xml;
using System.Xml.Linq;

namespace Athwart.Recordings;

/// <summary>XML from a file nobody vouches for: any encoding in, no DTD, no entity from outside, bounded size and depth.</summary>
internal static class ProductionXml
{
    /// <summary>The longest chunk that is read, in bytes; recorders write some thousand.</summary>
    public const int SizeLimit = 2 * 1024 * 1024;

    private const int DepthLimit = 64;

    /// <summary>The text of a chunk: by byte order mark, else by the width of its first characters, else by its declaration; padding is cut off.</summary>
    public static string Decode(ReadOnlySpan<byte> data)
    {
        if (data.Length > SizeLimit)
            throw new FormatException($"an iXML chunk of {data.Length} bytes is longer than the {SizeLimit} that are read");
        var encoding = Detect(data);
        try
        {
            return Trim(encoding.GetString(data));
        }
        catch (DecoderFallbackException)
        {
            return Trim(Encoding.Latin1.GetString(data));
        }
    }

    /// <summary>The root element.</summary>
    /// <exception cref="FormatException">Not well-formed, with a DTD, or nested too deep.</exception>
    public static XElement Load(string xml)
    {
        try
        {
            using var reader = XmlReader.Create(new StringReader(xml), Settings());
            return Build(reader);
        }
        catch (XmlException e)
        {
            throw new FormatException($"the iXML chunk is not well-formed or has a DTD: {e.Message}", e);
        }
    }

    private static XmlReaderSettings Settings() => new()
    {
        DtdProcessing = DtdProcessing.Prohibit,
        XmlResolver = null,
        MaxCharactersInDocument = SizeLimit,
        MaxCharactersFromEntities = 1024,
        IgnoreComments = true,
        IgnoreProcessingInstructions = true,
        IgnoreWhitespace = true,
        // Recorders let control characters through; better a character than no notes.
        CheckCharacters = false,
    };

    private static XElement Build(XmlReader reader)
    {
        XElement? root = null;
        var open = new Stack<XElement>();
        while (reader.Read())
        {
            switch (reader.NodeType)
            {
                case XmlNodeType.Element:
                    var isEmpty = reader.IsEmptyElement;
                    var element = Element(reader);
                    if (open.TryPeek(out var parent))
                        parent.Add(element);
                    root ??= element;
                    if (!isEmpty)
                        open.Push(element);
                    if (open.Count > DepthLimit)
                        throw new FormatException($"the iXML chunk nests deeper than {DepthLimit} elements");
                    break;
                case XmlNodeType.EndElement:
                    open.Pop();
                    break;
                case XmlNodeType.Text or XmlNodeType.CDATA when open.Count > 0:
                    open.Peek().Add(new XText(reader.Value));
                    break;
            }
        }

        return root ?? throw new FormatException("the iXML chunk has no root element");
    }

    private static XElement Element(XmlReader reader)
    {
        var element = new XElement(reader.LocalName);
        while (reader.MoveToNextAttribute())
        {
            if (reader.Prefix.Length == 0 && !string.Equals(reader.LocalName, "xmlns", StringComparison.Ordinal))
                element.SetAttributeValue(reader.LocalName, reader.Value);
        }

        return element;
    }

    private static Encoding Detect(ReadOnlySpan<byte> data) => data switch
    {
        [0xFF, 0xFE, 0, 0, ..] or [(byte)'<', 0, 0, 0, ..] => Strict(new UTF32Encoding(bigEndian: false, byteOrderMark: true)),
        [0, 0, 0xFE, 0xFF, ..] or [0, 0, 0, (byte)'<', ..] => Strict(new UTF32Encoding(bigEndian: true, byteOrderMark: true)),
        [0xFF, 0xFE, ..] or [(byte)'<', 0, ..] => Strict(Encoding.Unicode),
        [0xFE, 0xFF, ..] or [0, (byte)'<', ..] => Strict(Encoding.BigEndianUnicode),
        [0xEF, 0xBB, 0xBF, ..] => Strict(Encoding.UTF8),
        _ => Declared(data),
    };

    /// <summary>The encoding of the declaration; UTF-8 where it names none, an unknown one, or one of wider characters than are there.</summary>
    private static Encoding Declared(ReadOnlySpan<byte> data)
    {
        var head = Encoding.Latin1.GetString(data[..Math.Min(256, data.Length)]);
        var end = head.IndexOf("?>", StringComparison.Ordinal);
        var at = head.IndexOf("encoding", StringComparison.Ordinal);
        if (at < 0 || at > end)
            return Strict(Encoding.UTF8);
        var parts = head[at..end].Split('"', '\'');
        var name = parts.Length > 1 ? parts[1] : "";
        if (name.StartsWith("utf-16", StringComparison.OrdinalIgnoreCase) || name.StartsWith("utf-32", StringComparison.OrdinalIgnoreCase) || name.StartsWith("ucs", StringComparison.OrdinalIgnoreCase))
            return Strict(Encoding.UTF8);
        return Strict(Named(name));
    }

    private static Encoding Named(string name)
    {
        try
        {
            return CodePagesEncodingProvider.Instance.GetEncoding(name) ?? Encoding.GetEncoding(name);
        }
        catch (Exception e) when (e is ArgumentException or NotSupportedException)
        {
            // UTF-7 is one that .NET knows and refuses.
            return Encoding.UTF8;
        }
    }

    private static Encoding Strict(Encoding encoding)
    {
        var strict = (Encoding)encoding.Clone();
        strict.DecoderFallback = DecoderFallback.ExceptionFallback;
        return strict;
    }

    private static string Trim(string text) => text.Trim('\uFEFF', '\0', ' ', '\t', '\r', '\n');

    /// <summary>A number as XML writes it.</summary>
    public static string Text(IFormattable value) => value.ToString(null, CultureInfo.InvariantCulture);
}
