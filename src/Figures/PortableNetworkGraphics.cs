using System.Buffers.Binary;
using System.IO.Compression;

namespace Athwart.Figures;

/// <summary>Writes pictures of up to 256 colours as PNG: signature, IHDR, PLTE, tRNS, one IDAT, IEND.</summary>
/// <remarks>
/// Source: ISO/IEC 15948 (the PNG specification, third edition). Same pixels, same runtime: same bytes; another version of the runtime's
/// deflate may pack them otherwise, never change them.
/// </remarks>
public static class PortableNetworkGraphics
{
    private static readonly uint[] Remainders = MakeRemainders();

    /// <summary>Encodes one picture.</summary>
    /// <param name="width">Pixels across, 1 or more.</param>
    /// <param name="height">Pixels down, 1 or more.</param>
    /// <param name="pixels">Row after row from the top, one palette index a pixel.</param>
    /// <param name="palette">1 to 256 colours.</param>
    /// <param name="firstIsTransparent">Whether index 0 lets the page shine through.</param>
    /// <exception cref="ArgumentException">Sizes do not fit together.</exception>
    public static byte[] Write(int width, int height, ReadOnlySpan<byte> pixels, IReadOnlyList<Rgb> palette, bool firstIsTransparent = false)
    {
        if (width < 1 || height < 1 || pixels.Length != (long)width * height)
            throw new ArgumentException($"{pixels.Length} pixels are not {width} x {height}", nameof(pixels));
        if (palette.Count is < 1 or > 256)
            throw new ArgumentException($"{palette.Count} colours; a palette has 1 to 256", nameof(palette));
        using var file = new MemoryStream();
        file.Write([0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A]);
        Chunk(file, "IHDR"u8, Header(width, height));
        Chunk(file, "PLTE"u8, Colours(palette));
        if (firstIsTransparent)
            Chunk(file, "tRNS"u8, [0]);
        Chunk(file, "IDAT"u8, Packed(width, height, pixels));
        Chunk(file, "IEND"u8, []);
        return file.ToArray();
    }

    /// <summary>The picture as a 'data:' address for an image element.</summary>
    public static string DataAddress(ReadOnlySpan<byte> png) => "data:image/png;base64," + Convert.ToBase64String(png);

    private static byte[] Header(int width, int height)
    {
        var header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, width);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), height);
        // 8 bits an index, colour type 3 (palette); compression, filter method and interlace 0.
        header[8] = 8;
        header[9] = 3;
        return header;
    }

    private static byte[] Colours(IReadOnlyList<Rgb> palette)
    {
        var bytes = new byte[palette.Count * 3];
        for (var i = 0; i < palette.Count; i++)
            (bytes[3 * i], bytes[(3 * i) + 1], bytes[(3 * i) + 2]) = (palette[i].Red, palette[i].Green, palette[i].Blue);
        return bytes;
    }

    private static byte[] Packed(int width, int height, ReadOnlySpan<byte> pixels)
    {
        using var packed = new MemoryStream();
        using (var deflate = new ZLibStream(packed, CompressionLevel.SmallestSize))
        {
            for (var y = 0; y < height; y++)
            {
                // Filter 0: indices are not a continuous tone, prediction does not help.
                deflate.WriteByte(0);
                deflate.Write(pixels.Slice(y * width, width));
            }
        }

        return packed.ToArray();
    }

    private static void Chunk(MemoryStream file, ReadOnlySpan<byte> type, ReadOnlySpan<byte> data)
    {
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, data.Length);
        file.Write(number);
        file.Write(type);
        file.Write(data);
        BinaryPrimitives.WriteUInt32BigEndian(number, ~Check(data, Check(type, uint.MaxValue)));
        file.Write(number);
    }

    private static uint Check(ReadOnlySpan<byte> data, uint check)
    {
        foreach (var value in data)
            check = Remainders[(check ^ value) & 0xFF] ^ (check >> 8);
        return check;
    }

    private static uint[] MakeRemainders()
    {
        var table = new uint[256];
        for (var i = 0u; i < 256; i++)
        {
            var value = i;
            for (var bit = 0; bit < 8; bit++)
                value = (value & 1) == 1 ? 0xEDB88320 ^ (value >> 1) : value >> 1;
            table[i] = value;
        }

        return table;
    }
}
