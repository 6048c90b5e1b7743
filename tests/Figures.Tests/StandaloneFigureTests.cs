using System.Buffers.Binary;
using System.Xml.Linq;
using Athwart.Figures.Rigs;
using Athwart.Tests.Shared;

namespace Athwart.Figures.Tests;

public sealed class StandaloneFigureTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private static string Figure { get; } = CoverageWedgeFigure.Draw(new("wedge", "From above", "Coverage 90 degrees."), 90, null);

    [Fact]
    public void AFileOfItsOwn_HasItsSizeStyleAndColours_AndNoCustomProperty()
    {
        foreach (var palette in (Palette[])[Palette.Light, Palette.Dark])
        {
            var svg = StandaloneFigure.Svg(Figure, palette);
            var root = XDocument.Parse(svg).Root!;
            Assert.Equal(("460", "400"), (root.Attribute("width")!.Value, root.Attribute("height")!.Value));
            Assert.DoesNotContain("var(", svg, StringComparison.Ordinal);
            Assert.Contains(palette.Mid.ToString(), svg, StringComparison.Ordinal);
            Assert.Equal("From above", root.Elements().First(e => e.Name.LocalName == "title").Value);
        }
    }

    [Fact]
    public void WhatIsNoFigure_IsRefused() => Assert.Throws<ArgumentException>(() => StandaloneFigure.Svg("<p>gate</p>", Palette.Light));

    [Fact]
    public void APng_HasTheFiguresSizeTimesTheScale_AndIsNotOneColour()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "PNG files are drawn by librsvg, which is loaded by its name on Linux");
        var path = _folder.File("wedge.png");
        try
        {
            FigureRaster.WritePng(StandaloneFigure.Svg(Figure, Palette.Light), path, 2);
        }
        catch (DllNotFoundException)
        {
            Assert.SkipUnless(Environment.GetEnvironmentVariable("ATHWART_REQUIRE_REFERENCES") == "1", "librsvg is not installed: " + FigureRaster.Remedy);
            throw;
        }

        var bytes = File.ReadAllBytes(path);
        Assert.Equal("PNG"u8, bytes.AsSpan(1, 3));
        Assert.Equal((920, 800), (BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(16)), BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(20))));

        // A plain white picture of this size packs into less than 4 kB.
        Assert.True(bytes.Length > 8000, $"{bytes.Length} bytes");
    }

    public void Dispose() => _folder.Dispose();
}
