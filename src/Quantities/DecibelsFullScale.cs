namespace Athwart.Quantities;

/// <summary>A level against digital full scale in dBFS: 0 is a peak of ±1.0; silence is −∞.</summary>
/// <remarks>
/// A peak level unless a name says otherwise. A level plus a gain is a level; two levels have a difference and no sum.
/// <c>default</c> is 0 dBFS.
/// </remarks>
/// <param name="Value">The level in dBFS, from −∞ upwards; above 0 only in floating-point recordings or between samples.</param>
public readonly record struct DecibelsFullScale(double Value) : IComparable<DecibelsFullScale>
{
    /// <summary>No sound at all: −∞ dBFS.</summary>
    public static DecibelsFullScale Silence => new(double.NegativeInfinity);

    /// <summary>From an amplitude where 1.0 is full scale; 0 gives −∞.</summary>
    public static DecibelsFullScale FromAmplitude(double amplitude) => new(20 * Math.Log10(Math.Abs(amplitude)));

    /// <summary>From a mean square where a constant 1.0 has mean square 1; 0 gives −∞.</summary>
    public static DecibelsFullScale FromMeanSquare(double meanSquare) => new(10 * Math.Log10(meanSquare));

    /// <summary>The amplitude, 1.0 at 0 dBFS.</summary>
    public double Amplitude => Math.Pow(10, Value / 20);

    /// <summary>The level after a gain.</summary>
    public static DecibelsFullScale operator +(DecibelsFullScale level, Decibels gain) => new(level.Value + gain.Value);

    /// <summary>The level before a gain.</summary>
    public static DecibelsFullScale operator -(DecibelsFullScale level, Decibels gain) => new(level.Value - gain.Value);

    /// <summary>How far the first level lies above the second.</summary>
    public static Decibels operator -(DecibelsFullScale left, DecibelsFullScale right) => new(left.Value - right.Value);

    /// <summary>Whether the first is smaller.</summary>
    public static bool operator <(DecibelsFullScale left, DecibelsFullScale right) => left.Value < right.Value;

    /// <summary>Whether the first is larger.</summary>
    public static bool operator >(DecibelsFullScale left, DecibelsFullScale right) => left.Value > right.Value;

    /// <summary>Whether the first is smaller or equal.</summary>
    public static bool operator <=(DecibelsFullScale left, DecibelsFullScale right) => left.Value <= right.Value;

    /// <summary>Whether the first is larger or equal.</summary>
    public static bool operator >=(DecibelsFullScale left, DecibelsFullScale right) => left.Value >= right.Value;

    /// <inheritdoc/>
    public int CompareTo(DecibelsFullScale other) => Value.CompareTo(other.Value);

    /// <summary>'−18.0 dBFS', '−∞ dBFS'; one decimal, invariant culture.</summary>
    public override string ToString() => Text.Signed(Value, "dBFS");
}
