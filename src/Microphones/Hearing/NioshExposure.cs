using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Hearing;

/// <summary>The recommended exposure limit of NIOSH: 85 dBA for 8 hours, 3 dB halves the time, nothing above 115 dBA.</summary>
/// <remarks>Source: CDC/NIOSH, sound level meter page and criteria; see docs/sources.md#niosh. A figure to plan by, no medical advice.</remarks>
public static class NioshExposure
{
    /// <summary>The level for a working day, 85 dBA.</summary>
    public const double LimitDecibelsA = 85;

    /// <summary>No time is allowed above, 115 dBA.</summary>
    public const double CeilingDecibelsA = 115;

    private const double DaySeconds = 8 * 3600;

    /// <summary>The time allowed in a day, in seconds: 480 min / 2^((L − 85)/3); 0 above the ceiling.</summary>
    public static double AllowedSeconds(double levelDecibelsA)
        => Require.Finite(levelDecibelsA) > CeilingDecibelsA ? 0 : DaySeconds / Math.Pow(2, (levelDecibelsA - LimitDecibelsA) / 3);

    /// <summary>The dose of a day in %: 100·Σ time / time allowed; 100 is the limit; +∞ with any time above the ceiling.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A level is no number or a time is negative.</exception>
    public static double DosePercent(IEnumerable<ExposurePart> day)
    {
        ArgumentNullException.ThrowIfNull(day);
        return 100 * day.Where(part => part.Checked().Seconds > 0).Sum(part => part.Seconds / AllowedSeconds(part.LevelDecibelsA));
    }

    /// <summary>The level in dBA that gives the same dose in 8 hours: 10·lg(D/100) + 85; −∞ for no dose.</summary>
    public static double TimeWeightedAverageDecibelsA(double dosePercent) => (10 * Math.Log10(dosePercent / 100)) + LimitDecibelsA;
}
