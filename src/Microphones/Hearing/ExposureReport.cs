namespace Athwart.Microphones.Hearing;

/// <summary>A day's exposure against the limits.</summary>
public sealed record ExposureReport
{
    /// <summary>The parts of the day with the time each alone would be allowed.</summary>
    public required IReadOnlyList<ExposureLine> Lines { get; init; }

    /// <summary>The dose in % of the NIOSH limit; +∞ with any time above 115 dBA.</summary>
    public required double NioshDosePercent { get; init; }

    /// <summary>LEX,8h in dBA; −∞ for no time.</summary>
    public required double DailyDecibelsA { get; init; }

    /// <summary>The gravest value of the European directive that is reached, nothing taken off for protection.</summary>
    public required EuropeanValue European { get; init; }

    /// <summary>Whether the day needs less level, less time or protection: the NIOSH dose is above 100 % or an upper action value is reached.</summary>
    public bool TooMuch => NioshDosePercent > 100 || European >= EuropeanValue.UpperAction;

    /// <summary>Makes it.</summary>
    /// <param name="day">The parts of the day, headphones among them.</param>
    /// <param name="peakDecibelsC">The highest C-weighted peak at the ear in dB; null when not known.</param>
    /// <exception cref="ArgumentOutOfRangeException">A level is no number or a time is negative.</exception>
    public static ExposureReport For(IReadOnlyList<ExposurePart> day, double? peakDecibelsC = null)
    {
        ArgumentNullException.ThrowIfNull(day);
        var daily = EuropeanExposure.DailyDecibelsA(day);
        return new()
        {
            Lines = [.. day.Select(ExposureLine.For)],
            NioshDosePercent = NioshExposure.DosePercent(day),
            DailyDecibelsA = daily,
            European = EuropeanExposure.Reached(daily, peakDecibelsC),
        };
    }
}

/// <summary>One part of a day against the limits.</summary>
/// <param name="Part">The part.</param>
/// <param name="NioshAllowedSeconds">The time in a day that NIOSH allows at that level alone; 0 above 115 dBA.</param>
/// <param name="EuropeanUpperActionSeconds">The time in a day until the upper action value is reached at that level alone.</param>
public readonly record struct ExposureLine(ExposurePart Part, double NioshAllowedSeconds, double EuropeanUpperActionSeconds)
{
    internal static ExposureLine For(ExposurePart part)
        => new(part, NioshExposure.AllowedSeconds(part.LevelDecibelsA), EuropeanExposure.AllowedSeconds(part.LevelDecibelsA, EuropeanExposure.UpperActionDecibelsA));
}
