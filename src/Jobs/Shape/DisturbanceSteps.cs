using Athwart.Quantities;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape;

/// <summary>Steps against what disturbs, made from the numbers of the findings.</summary>
internal static class DisturbanceSteps
{
    /// <summary>Wind: its low end is cut where nothing better is known.</summary>
    public static object? Wind(PairRoles roles, IReadOnlyList<Finding> findings, int sampleRateHertz) => new LowCut(roles, 120, 18);

    /// <summary>Hum: a narrow cut at its frequency.</summary>
    public static object? Hum(PairRoles roles, IReadOnlyList<Finding> findings) =>
        findings[0].Evidence.FirstOrDefault(e => e.Name is "frequency") is { Value: > 10 } frequency ? new Bell(roles, frequency.Value, -30, 20) : null;

    /// <summary>Clicks and short gaps.</summary>
    public static object? Repair(PairRoles roles, IReadOnlyList<Finding> findings, int sampleRateHertz) => null;
}
