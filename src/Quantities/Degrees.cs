using System.Globalization;

namespace Athwart.Quantities;

/// <summary>An angle in degrees. An azimuth is 0 where the mid points and positive to the left.</summary>
/// <param name="Value">The angle in degrees; <c>default</c> is straight ahead.</param>
public readonly record struct Degrees(double Value) : IComparable<Degrees>
{
    /// <summary>The same angle in radians.</summary>
    public double Radians => Value * (Math.PI / 180);

    /// <summary>From radians.</summary>
    public static Degrees FromRadians(double radians) => new(radians * (180 / Math.PI));

    /// <summary>Whether the first is smaller.</summary>
    public static bool operator <(Degrees left, Degrees right) => left.Value < right.Value;

    /// <summary>Whether the first is larger.</summary>
    public static bool operator >(Degrees left, Degrees right) => left.Value > right.Value;

    /// <summary>Whether the first is smaller or equal.</summary>
    public static bool operator <=(Degrees left, Degrees right) => left.Value <= right.Value;

    /// <summary>Whether the first is larger or equal.</summary>
    public static bool operator >=(Degrees left, Degrees right) => left.Value >= right.Value;

    /// <inheritdoc/>
    public int CompareTo(Degrees other) => Value.CompareTo(other.Value);

    /// <summary>'30.0°'; invariant culture.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Value:0.0}°");
}
