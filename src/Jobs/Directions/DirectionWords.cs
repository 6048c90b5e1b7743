using System.Globalization;
using Athwart.Metering.Direction;

namespace Athwart.Jobs.Directions;

/// <summary>A direction trail in a sentence.</summary>
internal static class DirectionWords
{
    /// <summary>A sound that moved this far is said to move.</summary>
    private const double MovesDegrees = 15;

    public static string Of(DirectionTrail trail)
    {
        var known = trail.Whole.AzimuthDegrees.Select((azimuth, column) => (Azimuth: (double)azimuth, column)).Where(k => double.IsFinite(k.Azimuth)).ToList();
        if (known.Count == 0)
            return "No sound dominates: it comes from everywhere, or there is none.";
        // The ends by a few columns each, so that one clap does not decide.
        var few = Math.Max(1, known.Count / 10);
        var (first, last) = (Middle(known.Take(few)), Middle(known.TakeLast(few)));
        var share = 100.0 * known.Count / trail.Columns;
        var said = Math.Abs(last - first) >= MovesDegrees
            ? $"From {Place(first)} at the beginning to {Place(last)} at the end"
            : $"About {Place(Middle(known))} throughout";
        return string.Create(CultureInfo.InvariantCulture, $"{said}; a sound dominates {share:0} % of the time. Taken with a mid of omni share {trail.OmniShare:0.##}; what is behind is drawn ahead.");

        static double Middle(IEnumerable<(double Azimuth, int Column)> some)
        {
            var sorted = some.Select(k => k.Azimuth).Order().ToList();
            return sorted[sorted.Count / 2];
        }
    }

    private static string Place(double azimuth) => Math.Abs(azimuth) < 3 ? "straight ahead"
        : string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(azimuth):0}° {(azimuth > 0 ? "left" : "right")}");
}
