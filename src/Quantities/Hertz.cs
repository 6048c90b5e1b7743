using System.Globalization;

namespace Athwart.Quantities;

/// <summary>A frequency or a sample rate in hertz; 0 or more; <c>default</c> is 0 Hz.</summary>
/// <param name="Value">Cycles, or sample frames, per second.</param>
public readonly record struct Hertz(double Value) : IComparable<Hertz>
{
    /// <summary>Whether the first is lower.</summary>
    public static bool operator <(Hertz left, Hertz right) => left.Value < right.Value;

    /// <summary>Whether the first is higher.</summary>
    public static bool operator >(Hertz left, Hertz right) => left.Value > right.Value;

    /// <summary>Whether the first is lower or equal.</summary>
    public static bool operator <=(Hertz left, Hertz right) => left.Value <= right.Value;

    /// <summary>Whether the first is higher or equal.</summary>
    public static bool operator >=(Hertz left, Hertz right) => left.Value >= right.Value;

    /// <inheritdoc/>
    public int CompareTo(Hertz other) => Value.CompareTo(other.Value);

    /// <summary>'80 Hz', '22.05 kHz'; invariant culture.</summary>
    public override string ToString() => Value >= 1000
        ? string.Create(CultureInfo.InvariantCulture, $"{Value / 1000:0.###} kHz")
        : string.Create(CultureInfo.InvariantCulture, $"{Value:0.###} Hz");
}
