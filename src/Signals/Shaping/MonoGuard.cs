namespace Athwart.Signals.Shaping;

/// <summary>Keeps the decode safe in mono: a look-ahead limiter on the side alone, so that no 400 ms breaks a stated limit.</summary>
/// <remarks>
/// The limit is one of side to mid as decoded, in energy. A lowest correlation r of left and right is the same as a highest side to mid of
/// (1 − r)/(1 + r): for r = 0 whatever the sound, for r above 0 taken as though mid and side were unrelated, which is the worst case. Below 0
/// a correlation is no matter of energies; state the side to mid instead.
/// </remarks>
public sealed record MonoGuard
{
    /// <summary>The length of the windows that are held to the limit, in seconds.</summary>
    public const double WindowSeconds = 0.4;

    /// <summary>States the limit, one way or the other; neither is a correlation of 0.</summary>
    /// <param name="lowestCorrelation">Of left and right, 0 to 0.99.</param>
    /// <param name="highestSideToMidDecibels">Of the side as decoded against the mid, −40 to +12 dB.</param>
    /// <param name="smoothingSeconds">How long the gain takes from one value to another, 0.01 to 0.5 s; 0.03 unless stated.</param>
    /// <param name="holdSeconds">How far around a moment of too much side it stays under watch, 0 to 0.4 s; 0.05 unless stated. More is calmer, less leaves more width.</param>
    /// <exception cref="ArgumentException">Both limits are stated, or a setting is out of range.</exception>
    public MonoGuard(double? lowestCorrelation = null, double? highestSideToMidDecibels = null, double smoothingSeconds = 0.03, double holdSeconds = 0.05)
    {
        if (lowestCorrelation is not null && highestSideToMidDecibels is not null)
            throw new ArgumentException("A mono guard has one limit: state the lowest correlation or the highest side to mid, not both.", nameof(highestSideToMidDecibels));
        HighestSideToMidDecibels = highestSideToMidDecibels is { } ratio ? SettingsRules.Within(ratio, -40, 12, "dB", nameof(highestSideToMidDecibels)) : null;
        LowestCorrelation = highestSideToMidDecibels is null ? SettingsRules.Within(lowestCorrelation ?? 0, 0, 0.99, "", nameof(lowestCorrelation)) : null;
        SmoothingSeconds = SettingsRules.Within(smoothingSeconds, 0.01, 0.5, "s");
        HoldSeconds = SettingsRules.Within(holdSeconds, 0, 0.4, "s");
    }

    /// <summary>The lowest correlation of left and right; null when the side to mid is stated.</summary>
    public double? LowestCorrelation { get; }

    /// <summary>The highest side to mid as decoded in decibels; null when the correlation is stated.</summary>
    public double? HighestSideToMidDecibels { get; }

    /// <summary>How long the gain takes from one value to another, in seconds.</summary>
    public double SmoothingSeconds { get; }

    /// <summary>How far around a moment of too much side it stays under watch, in seconds.</summary>
    public double HoldSeconds { get; }

    /// <summary>The highest side to mid in energy.</summary>
    internal double HighestEnergyRatio
    {
        get
        {
            if (LowestCorrelation is { } correlation)
                return (1 - correlation) / (1 + correlation);
            var amplitude = SettingsRules.Ratio(HighestSideToMidDecibels!.Value);
            return amplitude * amplitude;
        }
    }
}
