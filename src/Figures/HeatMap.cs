namespace Athwart.Figures;

/// <summary>Colours for a quantity from little (nearly white) to much (nearly black blue), evenly spaced to the eye.</summary>
/// <remarks>
/// A curve through CIE 1976 L*a*b* whose lightness only falls, walked in equal steps of its own length (before rounding to 8 bits). Light at the quiet end, so that
/// it prints with little ink; pages invert it at night, which turns it into black, rust and cream with the order kept.
/// Sources: CIE 015 (L*a*b*, D65 white) and IEC 61966-2-1 (sRGB).
/// </remarks>
public static class HeatMap
{
    private const int Fine = 1024;

    /// <summary>So many colours, from the least to the most.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than 2 or more than 256 colours.</exception>
    public static IReadOnlyList<Rgb> Colours(int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(count, 256);
        var travelled = Travelled();
        var colours = new Rgb[count];
        var at = 0;
        for (var i = 0; i < count; i++)
        {
            var wanted = travelled[^1] * i / (count - 1);
            while (at < Fine && travelled[at + 1] < wanted)
                at++;
            var gap = at < Fine ? travelled[at + 1] - travelled[at] : 0;
            var place = gap > 0 ? (at + ((wanted - travelled[at]) / gap)) / Fine : (double)at / Fine;
            colours[i] = Lab.FromCurve(Math.Min(place, 1)).ToRgb();
        }

        return colours;
    }

    private static double[] Travelled()
    {
        var travelled = new double[Fine + 1];
        for (var i = 1; i <= Fine; i++)
            travelled[i] = travelled[i - 1] + Lab.FromCurve((double)i / Fine).Distance(Lab.FromCurve((i - 1.0) / Fine));
        return travelled;
    }
}

/// <summary>A colour of CIE 1976 L*a*b* against the D65 white.</summary>
internal readonly record struct Lab(double Lightness, double A, double B)
{
    private const double WhiteX = 0.95047;
    private const double WhiteZ = 1.08883;

    /// <summary>From pale reed (0) through canal green to night blue (1).</summary>
    public static Lab FromCurve(double place)
    {
        var lightness = 98 - (84 * place);
        // Chosen to stay inside what sRGB can show, all the way.
        var chroma = 3 + (28 * Math.Sin(Math.PI * Math.Pow(place, 0.85)) * (1 - (0.25 * place))) + (10 * place * place);
        var hue = (100 + (190 * place)) * Math.PI / 180;
        return new(lightness, chroma * Math.Cos(hue), chroma * Math.Sin(hue));
    }

    public static Lab FromRgb(Rgb colour)
    {
        double r = Rgb.Linear(colour.Red), g = Rgb.Linear(colour.Green), b = Rgb.Linear(colour.Blue);
        var x = Root(((0.4124 * r) + (0.3576 * g) + (0.1805 * b)) / WhiteX);
        var y = Root((0.2126 * r) + (0.7152 * g) + (0.0722 * b));
        var z = Root(((0.0193 * r) + (0.1192 * g) + (0.9505 * b)) / WhiteZ);
        return new((116 * y) - 16, 500 * (x - y), 200 * (y - z));
    }

    public double Distance(Lab other)
        => Math.Sqrt(Math.Pow(Lightness - other.Lightness, 2) + Math.Pow(A - other.A, 2) + Math.Pow(B - other.B, 2));

    public Rgb ToRgb()
    {
        var (r, g, b) = ToLinear();
        return new(Encode(r), Encode(g), Encode(b));
    }

    private (double R, double G, double B) ToLinear()
    {
        var y = (Lightness + 16) / 116;
        double x = Cube(y + (A / 500)) * WhiteX, z = Cube(y - (B / 200)) * WhiteZ, luminance = Cube(y);
        return ((3.2406 * x) - (1.5372 * luminance) - (0.4986 * z),
            (-0.9689 * x) + (1.8758 * luminance) + (0.0415 * z),
            (0.0557 * x) - (0.2040 * luminance) + (1.0570 * z));
    }

    private static double Cube(double t) => t > 6.0 / 29 ? t * t * t : 3 * (6.0 / 29) * (6.0 / 29) * (t - (4.0 / 29));

    private static double Root(double t) => t > Math.Pow(6.0 / 29, 3) ? Math.Cbrt(t) : (t / (3 * (6.0 / 29) * (6.0 / 29))) + (4.0 / 29);

    private static byte Encode(double linear)
    {
        var value = linear <= 0.0031308 ? 12.92 * linear : (1.055 * Math.Pow(linear, 1 / 2.4)) - 0.055;
        return (byte)Math.Clamp(Math.Round(value * 255), 0, 255);
    }
}
