using System.Text;

namespace Athwart.Recordings;

/// <summary>Chunk names.</summary>
internal static class FourCharacters
{
    private static readonly HashSet<string> Known = new(StringComparer.Ordinal)
    {
        "fmt ", "data", "fact", "LIST", "bext", "iXML", "cue ", "smpl", "inst", "plst", "JUNK", "junk", "FLLR", "PAD ", "ds64", "PEAK",
        "id3 ", "ID3 ", "axml", "bxml", "sxml", "chna", "umid", "levl", "link", "cart", "_PMX", "acid", "qlty", "mext", "minf", "elm1", "regn", "DISP", "afsp", "MD5 ",
    };

    private static readonly HashSet<string> Filler = new(StringComparer.Ordinal) { "JUNK", "junk", "FLLR", "PAD " };

    /// <summary>The name as text, byte for character, so that any four bytes have a name.</summary>
    public static string Read(ReadOnlySpan<byte> bytes) => Encoding.Latin1.GetString(bytes[..4]);

    /// <summary>Writes a name.</summary>
    public static void Write(string id, Span<byte> bytes) => Encoding.Latin1.GetBytes(id.AsSpan(0, 4), bytes);

    /// <summary>Whether the name is one that recordings are known to carry.</summary>
    public static bool IsKnown(string id) => Known.Contains(id);

    /// <summary>Whether the chunk only takes up space.</summary>
    public static bool IsFiller(string id) => Filler.Contains(id);

    /// <summary>Whether a chunk may be called so: four printable ASCII characters, not starting with a blank.</summary>
    public static bool IsPlausible(string id) => id.Length == 4 && id[0] != ' ' && id.All(c => c is >= ' ' and <= '~');

    /// <summary>The name for a message: printable, whatever the bytes are.</summary>
    public static string Show(string id) => string.Concat(id.Select(c => c is >= ' ' and <= '~' ? c : '?'));
}
