using Athwart.Recordings;

namespace Athwart.Jobs.Cut;

/// <summary>What the markers of a file have to say about the sounds that were found.</summary>
internal static class MarkerWords
{
    /// <summary>A marker set by hand may come this long after the sound began, or before.</summary>
    private const double LateSeconds = 2;
    private const double EarlySeconds = 1;

    /// <summary>Frames within which the end of a marker is moved to the end of a sound.</summary>
    private const double NearSeconds = 0.25;

    /// <summary>The label of the marker that stands in or about a sound; empty when there is none.</summary>
    public static string Label(IReadOnlyList<Marker> markers, long from, long to, int rate)
    {
        var near = markers
            .Where(m => m.Label.Length > 0 && m.Frame < to + (LateSeconds * rate) && Math.Max(m.Frame + m.Length, m.Frame + 1) > from - (EarlySeconds * rate))
            .OrderByDescending(m => Overlap(m, from, to))
            .ThenBy(m => m.Frame < from ? from - m.Frame : Math.Max(0, m.Frame - to))
            .FirstOrDefault();
        return near?.Label ?? "";
    }

    /// <summary>The markers that are cuts themselves, their ends moved to those of near sounds.</summary>
    public static IEnumerable<(Marker Marker, long From, long To)> Cuts(IReadOnlyList<Marker> markers, IReadOnlyList<(long From, long To)> sounds, long frames, int rate)
    {
        foreach (var marker in markers.Where(m => m.Length > 0 && m.Frame >= 0 && m.Frame < frames).OrderBy(m => m.Frame))
        {
            var end = Math.Min(frames, marker.Frame + marker.Length);
            var from = Near(sounds.Select(s => s.From), marker.Frame, rate);
            var to = Near(sounds.Select(s => s.To), end, rate);
            yield return from < to ? (marker, from, to) : (marker, marker.Frame, end);
        }
    }

    private static long Near(IEnumerable<long> places, long frame, int rate)
    {
        var near = places.Where(p => Math.Abs(p - frame) <= NearSeconds * rate).OrderBy(p => Math.Abs(p - frame)).ToList();
        return near.Count > 0 ? near[0] : frame;
    }

    private static long Overlap(Marker marker, long from, long to) =>
        Math.Max(0, Math.Min(to, Math.Max(marker.Frame + marker.Length, marker.Frame + 1)) - Math.Max(from, marker.Frame));
}
