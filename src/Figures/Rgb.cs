using System.Globalization;

namespace Athwart.Figures;

/// <summary>A colour of 8 bits a channel in the sRGB space.</summary>
/// <param name="Red">0 to 255.</param>
/// <param name="Green">0 to 255.</param>
/// <param name="Blue">0 to 255.</param>
public readonly record struct Rgb(byte Red, byte Green, byte Blue)
{
    /// <summary>From a number such as 0x1B6A78.</summary>
    public static Rgb FromHex(int hex) => new((byte)(hex >> 16), (byte)(hex >> 8), (byte)hex);

    /// <summary>The colour opposite: what the page shows of a picture at night.</summary>
    public Rgb Inverted => new((byte)(255 - Red), (byte)(255 - Green), (byte)(255 - Blue));

    /// <summary>Relative luminance, 0 for black to 1 for white.</summary>
    /// <remarks>Source: WCAG 2.2, definition of relative luminance, with the transfer function of IEC 61966-2-1.</remarks>
    public double Luminance => (0.2126 * Linear(Red)) + (0.7152 * Linear(Green)) + (0.0722 * Linear(Blue));

    /// <summary>Contrast ratio of two colours, 1 to 21, whichever is lighter.</summary>
    /// <remarks>Source: WCAG 2.2, definition of contrast ratio; text needs 4.5 for level AA, graphics 3.</remarks>
    public static double Contrast(Rgb one, Rgb other)
    {
        var (light, dark) = one.Luminance > other.Luminance ? (one, other) : (other, one);
        return (light.Luminance + 0.05) / (dark.Luminance + 0.05);
    }

    /// <summary>'#1b6a78'.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"#{Red:x2}{Green:x2}{Blue:x2}");

    internal static double Linear(byte channel)
    {
        var value = channel / 255.0;
        return value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4);
    }
}
