using System.Globalization;
using Athwart.Tests.Shared;

namespace Athwart.Figures.Tests;

public sealed class PictureTests
{
    // Reads a palette PNG with the standard library alone, checks every CRC, prints colours row by row.
    private const string Reader = """
        import sys, zlib, struct
        b = open(sys.argv[1], 'rb').read()
        assert b[:8] == b'\x89PNG\r\n\x1a\n'
        p, data, order = 8, b'', []
        while p < len(b):
            n, t = struct.unpack('>I4s', b[p:p+8])
            body = b[p+8:p+8+n]
            assert struct.unpack('>I', b[p+8+n:p+12+n])[0] == zlib.crc32(t + body), t
            order.append(t.decode())
            if t == b'IHDR': w, h, bits, kind, _, _, _ = struct.unpack('>IIBBBBB', body)
            if t == b'PLTE': plte = body
            if t == b'IDAT': data += body
            p += 12 + n
        assert (bits, kind) == (8, 3)
        raw = zlib.decompress(data)
        assert len(raw) == h * (w + 1)
        print(' '.join(order))
        for y in range(h):
            assert raw[y*(w+1)] == 0
            print(' '.join(plte[3*i:3*i+3].hex() for i in raw[y*(w+1)+1:(y+1)*(w+1)]))
        """;

    [Fact]
    public void Png_ReadByAnIndependentProgram_HasTheColoursPutIn()
    {
        var python = ReferenceProgram.Require("python3");
        using var folder = new TemporaryFolder();
        Rgb[] palette = [Rgb.FromHex(0xFF0000), Rgb.FromHex(0x00FF00), Rgb.FromHex(0x0102FE)];
        File.WriteAllBytes(folder.File("a.png"), PortableNetworkGraphics.Write(3, 2, [0, 1, 2, 2, 1, 0], palette, firstIsTransparent: true));

        var run = ReferenceProgram.Run(python, "-c", Reader, folder.File("a.png"));

        Assert.Equal("", run.Error);
        Assert.Equal("IHDR PLTE tRNS IDAT IEND\nff0000 00ff00 0102fe\n0102fe 00ff00 ff0000\n", run.Output);
    }

    [Fact]
    public void Png_ProbedByFfprobe_HasItsSize()
    {
        var ffprobe = ReferenceProgram.Require("ffprobe");
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder.File("a.png"), PortableNetworkGraphics.Write(640, 192, new byte[640 * 192], HeatMap.Colours(64)));

        var run = ReferenceProgram.Run(ffprobe, "-v", "error", "-show_entries", "stream=codec_name,width,height,pix_fmt", "-of", "csv=p=0", folder.File("a.png"));

        Assert.Equal("png,640,192,pal8", run.Output.Trim());
        Assert.Equal("", run.Error);
    }

    [Fact]
    public void Spectrogram_PaintsHighFrequenciesOnTopAndLoudDark()
    {
        var python = ReferenceProgram.Require("python3");
        using var folder = new TemporaryFolder();
        // Column 0 holds a full-scale tone in the upper row; all else is silent.
        File.WriteAllBytes(folder.File("a.png"), SpectrogramFigure.Paint(new(2, 2, 20, 24000, [0, 0, 255, 0]), 0));

        var rows = ReferenceProgram.Run(python, "-c", Reader, folder.File("a.png")).Output.Split('\n');

        var map = HeatMap.Colours(64);
        Assert.Equal($"{Hex(map[^1])} {Hex(map[0])}", rows[1]);
        Assert.Equal($"{Hex(map[0])} {Hex(map[0])}", rows[2]);
    }

    [Fact]
    public void Vector_PaintsTheLastRowOnTopAndNeverHidesAFrame()
    {
        var python = ReferenceProgram.Require("python3");
        using var folder = new TemporaryFolder();
        File.WriteAllBytes(folder.File("a.png"), VectorFigure.Paint(2, [0, 0, 1, 255]));

        var rows = ReferenceProgram.Run(python, "-c", Reader, folder.File("a.png")).Output.Split('\n');

        var map = HeatMap.Colours(256);
        Assert.Equal($"{Hex(map[26])} {Hex(map[255])}", rows[1]);
        Assert.Equal($"{Hex(map[0])} {Hex(map[0])}", rows[2]);
    }

    [Theory]
    [InlineData(0, 1, 0)]
    [InlineData(2, 2, 3)]
    public void Png_OfAWrongSize_IsRefused(int width, int height, int pixels)
        => Assert.Throws<ArgumentException>(() => PortableNetworkGraphics.Write(width, height, new byte[pixels], [default]));

    private static string Hex(Rgb colour) => colour.ToString()[1..].ToLower(CultureInfo.InvariantCulture);
}
