using System.Globalization;
using System.Text;

namespace Athwart.Figures;

/// <summary>Text and numbers on their way into SVG and HTML.</summary>
public static class Markup
{
    /// <summary>Makes any text safe between tags and inside quoted attributes; what XML cannot hold becomes U+FFFD.</summary>
    public static string Escape(string text)
    {
        var safe = new StringBuilder(text.Length + 16);
        foreach (var rune in text.EnumerateRunes())
        {
            _ = rune.Value switch
            {
                '<' => safe.Append("&lt;"),
                '>' => safe.Append("&gt;"),
                '&' => safe.Append("&amp;"),
                '"' => safe.Append("&quot;"),
                '\'' => safe.Append("&#39;"),
                '\t' or '\n' => safe.Append((char)rune.Value),
                < 0x20 or 0x7F or 0xFFFE or 0xFFFF => safe.Append('\uFFFD'),
                _ => safe.Append(rune.ToString()),
            };
        }

        return safe.ToString();
    }

    /// <summary>A coordinate: at most two decimals, invariant culture, never '-0'.</summary>
    public static string Number(double value) => (Math.Round(value, 2) + 0.0).ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>A number for people: a true minus, −∞ and +∞ as such, '?' for no number.</summary>
    /// <param name="value">The number.</param>
    /// <param name="decimals">Digits after the point, 0 to 6.</param>
    /// <param name="plus">Whether positive numbers carry a plus.</param>
    public static string Readable(double value, int decimals, bool plus = false)
    {
        if (double.IsNaN(value))
            return "?";
        if (double.IsInfinity(value))
            return value < 0 ? "−∞" : "+∞";
        var rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero);
        var sign = rounded < 0 ? "−" : plus && rounded > 0 ? "+" : "";
        return sign + Math.Abs(rounded).ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }
}
