using System.Text;

namespace Athwart.Recordings;

/// <summary>Text in chunks that name no encoding: ASCII by their standards, UTF-8 or Latin-1 in the field.</summary>
internal static class ChunkText
{
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>The text up to the first NUL: UTF-8 if it is valid as such, else Latin-1; never fails.</summary>
    public static string Read(ReadOnlySpan<byte> bytes)
    {
        var end = bytes.IndexOf((byte)0);
        if (end >= 0)
            bytes = bytes[..end];
        try
        {
            return Strict.GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            return Encoding.Latin1.GetString(bytes);
        }
    }

    /// <summary>Writes UTF-8 into a field of fixed length, NUL-filled, cut between characters where it is too long.</summary>
    public static void WriteField(string text, Span<byte> field)
    {
        field.Clear();
        Encoding.UTF8.GetEncoder().Convert(text, field, flush: false, out _, out _, out _);
    }

    /// <summary>UTF-8 bytes with a NUL at the end.</summary>
    public static byte[] Terminated(string text)
    {
        var bytes = new byte[Encoding.UTF8.GetByteCount(text) + 1];
        Encoding.UTF8.GetBytes(text, bytes);
        return bytes;
    }
}
