using System.Globalization;
using System.Text;

namespace Athwart.Jobs.Kits;

/// <summary>The bytes of a file as text: UTF-8, with or without a byte-order mark.</summary>
internal static class KitText
{
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    public static string? Decode(string file, ReadOnlySpan<byte> bytes, KitReading reading)
    {
        if (bytes.StartsWith("\uFEFF"u8))
            bytes = bytes[3..];
        try
        {
            if (!bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) && !bytes.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]))
                return Strict.GetString(bytes);
            reading.Fault(new(file), "", "The file is written in UTF-16.", "Save it as UTF-8; spreadsheets call it 'CSV UTF-8'.");
        }
        catch (DecoderFallbackException error)
        {
            reading.Fault(
                new(file, 1 + bytes[..Math.Max(0, error.Index)].Count((byte)'\n')),
                "",
                string.Create(CultureInfo.InvariantCulture, $"The file is not UTF-8: byte {error.Index} is none of it."),
                "Save it as UTF-8; spreadsheets call it 'CSV UTF-8'.");
        }

        return null;
    }
}
