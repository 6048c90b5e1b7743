using System.Globalization;
using System.Runtime.CompilerServices;

namespace Athwart.Microphones.Levels;

/// <summary>The doors of the level maths: what is no number or out of range is refused with its value.</summary>
internal static class Require
{
    public static double Finite(double value, [CallerArgumentExpression(nameof(value))] string name = "")
        => double.IsFinite(value) ? value : throw Refused(value, name, "a finite number");

    public static double Positive(double value, [CallerArgumentExpression(nameof(value))] string name = "")
        => double.IsFinite(value) && value > 0 ? value : throw Refused(value, name, "a finite number above 0");

    public static double NotNegative(double value, [CallerArgumentExpression(nameof(value))] string name = "")
        => double.IsFinite(value) && value >= 0 ? value : throw Refused(value, name, "a finite number of 0 or more");

    public static double Within(double value, double low, double high, [CallerArgumentExpression(nameof(value))] string name = "")
        => value >= low && value <= high
            ? value
            : throw Refused(value, name, string.Create(CultureInfo.InvariantCulture, $"from {low:0.###} to {high:0.###}"));

    private static ArgumentOutOfRangeException Refused(double value, string name, string rule)
        => new(name, value, string.Create(CultureInfo.InvariantCulture, $"{name} is {value}; it must be {rule}."));
}
