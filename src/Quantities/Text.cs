using System.Globalization;

namespace Athwart.Quantities;

/// <summary>How numbers with a sign are shown to people: a true minus, one decimal, −∞ for silence.</summary>
internal static class Text
{
    public static string Signed(double value, string unit)
    {
        if (double.IsNaN(value))
            return "? " + unit;
        if (double.IsInfinity(value))
            return (value < 0 ? "−∞ " : "+∞ ") + unit;
        var rounded = Math.Round(value, 1, MidpointRounding.AwayFromZero);
        var sign = rounded < 0 ? "−" : rounded > 0 && string.Equals(unit, "dB", StringComparison.Ordinal) ? "+" : "";
        return string.Create(CultureInfo.InvariantCulture, $"{sign}{Math.Abs(rounded):0.0} {unit}");
    }
}
