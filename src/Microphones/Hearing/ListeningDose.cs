using Athwart.Microphones.Levels;

namespace Athwart.Microphones.Hearing;

/// <summary>Headphone listening over a week, as WHO and ITU recommend: 1.6 Pa²h for adults (80 dBA for 40 h), 75 dBA for 40 h for children.</summary>
/// <remarks>Source: ITU-T H.870, quoted from summaries; see docs/sources.md#h870.</remarks>
public static class ListeningDose
{
    /// <summary>The level adults may hear for 40 hours a week, 80 dBA.</summary>
    public const double AdultDecibelsA = 80;

    /// <summary>The level children may hear for 40 hours a week, 75 dBA.</summary>
    public const double ChildDecibelsA = 75;

    private const double WeekHours = 40;

    /// <summary>The dose in Pa²h of a time at a level in dBA.</summary>
    public static double PascalSquaredHours(double levelDecibelsA, double hours)
    {
        var pascals = SoundPressure.ToPascals(Require.Finite(levelDecibelsA));
        return pascals * pascals * Require.NotNegative(hours);
    }

    /// <summary>Hours a week at a level in dBA, 3 dB halving the time: 40 h / 2^((L − reference)/3).</summary>
    public static double HoursPerWeek(double levelDecibelsA, double referenceDecibelsA = AdultDecibelsA)
        => WeekHours / Math.Pow(2, (Require.Finite(levelDecibelsA) - referenceDecibelsA) / 3);
}
