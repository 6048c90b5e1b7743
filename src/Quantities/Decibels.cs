using System.Globalization;

namespace Athwart.Quantities;

/// <summary>A gain or a difference of levels in decibels; <c>default</c> is 0 dB, no change.</summary>
/// <remarks>
/// Positive is louder. Negative infinity is allowed: it is the gain that silences. Amplitude convention:
/// dB = 20·lg(ratio). A difference is not a level; see <see cref="DecibelsFullScale"/>.
/// </remarks>
/// <param name="Value">The difference in decibels, from −∞ upwards.</param>
public readonly record struct Decibels(double Value) : IComparable<Decibels>
{
    /// <summary>No change: 0 dB, an amplitude ratio of 1.</summary>
    public static Decibels Unity => default;

    /// <summary>The gain that silences: −∞ dB, an amplitude ratio of 0.</summary>
    public static Decibels Silence => new(double.NegativeInfinity);

    /// <summary>The amplitude ratio 10^(dB/20); 0 for −∞ dB.</summary>
    public double AmplitudeRatio => Math.Pow(10, Value / 20);

    /// <summary>The power ratio 10^(dB/10); 0 for −∞ dB.</summary>
    public double PowerRatio => Math.Pow(10, Value / 10);

    /// <summary>From an amplitude ratio; the sign of the ratio is ignored, 0 gives −∞ dB.</summary>
    public static Decibels FromAmplitudeRatio(double ratio) => new(20 * Math.Log10(Math.Abs(ratio)));

    /// <summary>From a power ratio of 0 or more; 0 gives −∞ dB.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is negative.</exception>
    public static Decibels FromPowerRatio(double ratio)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(ratio);
        return new(10 * Math.Log10(ratio));
    }

    /// <summary>Both gains one after the other.</summary>
    public static Decibels operator +(Decibels left, Decibels right) => new(left.Value + right.Value);

    /// <summary>The gain that is left when one is taken off.</summary>
    public static Decibels operator -(Decibels left, Decibels right) => new(left.Value - right.Value);

    /// <summary>The opposite gain.</summary>
    public static Decibels operator -(Decibels gain) => new(-gain.Value);

    /// <summary>Whether the first is smaller.</summary>
    public static bool operator <(Decibels left, Decibels right) => left.Value < right.Value;

    /// <summary>Whether the first is larger.</summary>
    public static bool operator >(Decibels left, Decibels right) => left.Value > right.Value;

    /// <summary>Whether the first is smaller or equal.</summary>
    public static bool operator <=(Decibels left, Decibels right) => left.Value <= right.Value;

    /// <summary>Whether the first is larger or equal.</summary>
    public static bool operator >=(Decibels left, Decibels right) => left.Value >= right.Value;

    /// <inheritdoc/>
    public int CompareTo(Decibels other) => Value.CompareTo(other.Value);

    /// <summary>Reads '−3', '+1.5 dB' or '-inf'; invariant culture.</summary>
    /// <returns>False when the text is no number of decibels, or not a number, or +∞.</returns>
    public static bool TryParse(string? text, out Decibels gain)
    {
        gain = default;
        if (string.IsNullOrWhiteSpace(text))
            return false;
        var trimmed = text.Trim().Replace('−', '-');
        if (trimmed.EndsWith("dB", StringComparison.OrdinalIgnoreCase))
            trimmed = trimmed[..^2].TrimEnd();
        if (trimmed.Equals("-inf", StringComparison.OrdinalIgnoreCase))
        {
            gain = Silence;
            return true;
        }

        if (!double.TryParse(trimmed, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) || !double.IsFinite(value))
            return false;
        gain = new(value);
        return true;
    }

    /// <summary>'+1.5 dB', '−3.0 dB', '−∞ dB'; one decimal, invariant culture.</summary>
    public override string ToString() => Text.Signed(Value, "dB");
}
