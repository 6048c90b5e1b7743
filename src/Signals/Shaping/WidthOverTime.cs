using System.Globalization;

namespace Athwart.Signals.Shaping;

/// <summary>One point of a width that moves.</summary>
/// <param name="Frame">Frame number in the take, at the take's own rate.</param>
/// <param name="SideDecibels">Gain of the side there: −∞ or −100 to +40 dB; 0 leaves it as it is.</param>
public readonly record struct WidthPoint(long Frame, double SideDecibels);

/// <summary>The width moves while the sound plays: the gain of the side goes from point to point.</summary>
/// <remarks>
/// Between two finite points the gain moves in a straight line in decibels; to or from −∞ in a straight line in amplitude, for no line in
/// decibels leads there. Before the first point and after the last the gain stands.
/// </remarks>
public sealed record WidthOverTime
{
    private readonly EquatableList<WidthPoint> _points;

    /// <summary>Names the points.</summary>
    /// <param name="points">1 or more, their frames ascending.</param>
    /// <exception cref="ArgumentException">There are none, they do not ascend, or a gain is out of range.</exception>
    public WidthOverTime(IReadOnlyList<WidthPoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count == 0)
            throw new ArgumentException("A width over time has 1 point or more; leave the step out for a width that stands.", nameof(points));
        for (var n = 0; n < points.Count; n++)
        {
            if (!double.IsNegativeInfinity(points[n].SideDecibels))
                SettingsRules.Within(points[n].SideDecibels, -100, 40, "dB", nameof(points));
            if (n > 0 && points[n].Frame <= points[n - 1].Frame)
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The points of a width ascend in time; frame {points[n].Frame} comes after frame {points[n - 1].Frame}. Put them in order, one for each frame."), nameof(points));
        }

        _points = new(points);
    }

    /// <summary>The points, ascending.</summary>
    public IReadOnlyList<WidthPoint> Points => _points;
}
