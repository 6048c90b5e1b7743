using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Hearing;

/// <summary>A value of the European directive, by rising weight.</summary>
public enum EuropeanValue
{
    /// <summary>Below every value.</summary>
    None,

    /// <summary>At the lower action value, 80 dBA or 112 Pa: protection is to be at hand.</summary>
    LowerAction,

    /// <summary>At the upper action value, 85 dBA or 140 Pa: protection is to be worn.</summary>
    UpperAction,

    /// <summary>Above the limit, 87 dBA or 200 Pa, which counts what protection takes off.</summary>
    AboveLimit,
}

/// <summary>Exposure limit and action values of Directive 2003/10/EC, article 3.</summary>
/// <remarks>Source: the directive, article 3; see docs/sources.md#eu-noise. What follows from reaching a value, and national law, may be stricter.</remarks>
public static class EuropeanExposure
{
    /// <summary>Lower action value, dBA over 8 hours.</summary>
    public const double LowerActionDecibelsA = 80;

    /// <summary>Upper action value, dBA over 8 hours.</summary>
    public const double UpperActionDecibelsA = 85;

    /// <summary>Limit value, dBA over 8 hours, at the ear under protection.</summary>
    public const double LimitDecibelsA = 87;

    /// <summary>Lower action value of the C-weighted peak, in pascals: 135.0 dBC.</summary>
    public const double LowerActionPeakPascals = 112;

    /// <summary>Upper action value of the C-weighted peak, in pascals: 136.9 dBC.</summary>
    public const double UpperActionPeakPascals = 140;

    /// <summary>Limit value of the C-weighted peak, in pascals: 140.0 dBC.</summary>
    public const double LimitPeakPascals = 200;

    private const double DaySeconds = 8 * 3600;

    /// <summary>LEX,8h in dBA: 10·lg(Σ t·10^(L/10) / 8 h); −∞ for no time.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A level is no number or a time is negative.</exception>
    public static double DailyDecibelsA(IEnumerable<ExposurePart> day)
    {
        ArgumentNullException.ThrowIfNull(day);
        return 10 * Math.Log10(day.Sum(part => part.Checked().Seconds * Math.Pow(10, part.LevelDecibelsA / 10)) / DaySeconds);
    }

    /// <summary>The seconds in a day at a level in dBA until a daily value in dBA is reached: 8 h·10^((value − L)/10).</summary>
    public static double AllowedSeconds(double levelDecibelsA, double dailyDecibelsA)
        => DaySeconds * Math.Pow(10, (Require.Finite(dailyDecibelsA) - Require.Finite(levelDecibelsA)) / 10);

    /// <summary>The gravest value that a day reaches, nothing taken off for protection.</summary>
    /// <param name="dailyDecibelsA">LEX,8h in dBA.</param>
    /// <param name="peakDecibelsC">The highest C-weighted peak in dB; null when not known.</param>
    public static EuropeanValue Reached(double dailyDecibelsA, double? peakDecibelsC = null)
    {
        var peak = peakDecibelsC is { } decibels ? SoundPressure.ToPascals(decibels) : 0;
        if (dailyDecibelsA > LimitDecibelsA || peak > LimitPeakPascals)
            return EuropeanValue.AboveLimit;
        if (dailyDecibelsA >= UpperActionDecibelsA || peak >= UpperActionPeakPascals)
            return EuropeanValue.UpperAction;
        return dailyDecibelsA >= LowerActionDecibelsA || peak >= LowerActionPeakPascals ? EuropeanValue.LowerAction : EuropeanValue.None;
    }
}
