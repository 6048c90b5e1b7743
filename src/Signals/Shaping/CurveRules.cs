using System.Globalization;
using Athwart.Signals.Convolution;

namespace Athwart.Signals.Shaping;

/// <summary>What points of curves are held to.</summary>
internal static class CurveRules
{
    private const double HighestHertz = 100_000;

    public static EquatableList<CurvePoint> Points(IReadOnlyList<CurvePoint> points, int most, double lowestDecibels, double highestDecibels)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count == 0 || points.Count > most)
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"A curve has 1 to {most} points; given were {points.Count}."), nameof(points));
        for (var k = 0; k < points.Count; k++)
        {
            SettingsRules.Within(points[k].Hertz, FilterLimits.LowestHertz, HighestHertz, "Hz", $"points[{k}].Hertz");
            SettingsRules.Within(points[k].Decibels, lowestDecibels, highestDecibels, "dB", $"points[{k}].Decibels");
            if (k > 0 && points[k].Hertz <= points[k - 1].Hertz)
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The frequencies of a curve rise from point to point; {points[k].Hertz} Hz comes after {points[k - 1].Hertz} Hz. Put them in order."), nameof(points));
        }

        return new(points);
    }

    public static FilterPhase Phase(FilterPhase phase) => Enum.IsDefined(phase)
        ? phase
        : throw new ArgumentOutOfRangeException(nameof(phase), phase, "The phase is minimum or linear; choose one.");
}
