namespace Athwart.Figures.Tests;

public sealed class ColourTests
{
    public static TheoryData<string> Palettes => ["light", "dark"];

    // WCAG 2.2, success criterion 1.4.3 (AA): text 4.5 to 1. 1.4.11: graphics 3 to 1.
    [Theory]
    [MemberData(nameof(Palettes))]
    public void EveryTextColour_StandsAgainstPaperAndCardAtAA(string name)
    {
        var palette = Named(name);
        foreach (var ground in (Rgb[])[palette.Paper, palette.Card])
        {
            foreach (var text in (Rgb[])[palette.Ink, palette.Muted, palette.Mid, palette.Side, palette.Note, palette.Caution, palette.Fault])
                Assert.InRange(Rgb.Contrast(text, ground), 4.5, 21);
        }
    }

    [Theory]
    [MemberData(nameof(Palettes))]
    public void TextInTheRiskZoneAndOnAFaultMark_StandsAtAA(string name)
    {
        var palette = Named(name);
        Assert.InRange(Rgb.Contrast(palette.Card, palette.Fault), 4.5, 21);
        Assert.InRange(Rgb.Contrast(palette.Fault, Mixed(palette.Fault, palette.Card, 0.09)), 4.5, 21);
    }

    // WCAG 2.2: black on white is 21 to 1; #777777 on white is 4.48, the well-known near miss.
    [Fact]
    public void Contrast_HasThePublishedValues()
    {
        Assert.Equal(21, Rgb.Contrast(Rgb.FromHex(0), Rgb.FromHex(0xFFFFFF)), 6);
        Assert.Equal(4.48, Rgb.Contrast(Rgb.FromHex(0x777777), Rgb.FromHex(0xFFFFFF)), 2);
    }

    // CIE L*a*b* of sRGB red under D65: 53.24, 80.09, 67.20 (values in common use, two decimals).
    [Fact]
    public void Lab_OfRed_HasTheKnownCoordinates()
    {
        var red = Lab.FromRgb(Rgb.FromHex(0xFF0000));
        Assert.Equal(53.24, red.Lightness, 1);
        Assert.Equal(80.09, red.A, 1);
        Assert.Equal(67.20, red.B, 1);
    }

    [Fact]
    public void HeatMap_StepsAreEvenToTheEyeAndOnlyEverDarker()
    {
        // Sixteen colours: steps of about 8, so that rounding to 8 bits (up to half a unit near black) stays small beside them.
        var map = HeatMap.Colours(16).Select(Lab.FromRgb).ToList();
        var steps = map.Zip(map.Skip(1), (a, b) => a.Distance(b)).ToList();
        Assert.InRange(steps.Max() / steps.Min(), 1, 1.2);
        Assert.All(map.Zip(map.Skip(1)), pair => Assert.True(pair.Second.Lightness < pair.First.Lightness - 0.5));
        Assert.True(map[0].Lightness > 96);
        Assert.True(map[^1].Lightness < 16);
    }

    [Fact]
    public void HeatMapAtNight_IsOnlyEverLighter()
    {
        var map = HeatMap.Colours(32).Select(c => Lab.FromRgb(c.Inverted)).ToList();
        Assert.All(map.Zip(map.Skip(1)), pair => Assert.True(pair.Second.Lightness > pair.First.Lightness));
    }

    private static Palette Named(string name) => name == "light" ? Palette.Light : Palette.Dark;

    private static Rgb Mixed(Rgb over, Rgb under, double part) => new(
        (byte)Math.Round((over.Red * part) + (under.Red * (1 - part))),
        (byte)Math.Round((over.Green * part) + (under.Green * (1 - part))),
        (byte)Math.Round((over.Blue * part) + (under.Blue * (1 - part))));
}
