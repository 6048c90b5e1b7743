using System.Globalization;
using Athwart.Catalogue;

namespace Athwart.Jobs.Markers;

/// <summary>A marker as it was set, moved, named or removed.</summary>
/// <param name="Library">The library's folder.</param>
/// <param name="Before">The marker as it was; null for a new one.</param>
/// <param name="After">The marker as it is to be; null removes it.</param>
public sealed record ChangeMarkerRequest(string Library, OwnMarker? Before, OwnMarker? After);

/// <summary>Changes one marker of the recordist's own; the originals are not touched.</summary>
public static class ChangeMarkerJob
{
    /// <summary>The longest name, in characters.</summary>
    public const int LongestLabel = 120;

    /// <summary>Runs it.</summary>
    /// <exception cref="JobException">The marker was changed meanwhile, does not lie in its take, or its name is too long.</exception>
    public static void Run(ChangeMarkerRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        using var library = Library.Open(request.Library, LibraryAccess.Write);
        library.Transaction(() =>
        {
            if (request.Before is { } before && library.GetMarker(before.Id) != before)
                throw new JobException(JobErrorKind.Refused, $"The marker '{before.Label}' was changed or removed meanwhile, in another window.", "Look at it again and make your change anew.");
            if (request.After is { } after)
                library.SaveMarker(Checked(library, after));
            else if (request.Before is { } removed)
                library.RemoveMarker(removed.Id);
        });
    }

    private static OwnMarker Checked(Library library, OwnMarker marker)
    {
        var take = library.GetSummary(marker.Take) ?? throw new JobException(JobErrorKind.WrongUse, "The take of this marker is no longer there.", "Choose another take.");
        if (marker.Range.From.Value < 0 || marker.Range.To.Value > take.Length.Value)
            throw new JobException(JobErrorKind.WrongUse, string.Create(CultureInfo.InvariantCulture, $"The marker does not lie inside take '{take.Name}', which lasts {take.Seconds:0.000} s."), "Set it inside the take.");
        return marker.Label.Trim().Length <= LongestLabel
            ? marker with { Label = marker.Label.Trim() }
            : throw new JobException(JobErrorKind.WrongUse, string.Create(CultureInfo.InvariantCulture, $"A marker's name has up to {LongestLabel} characters."), "Shorten it; a cut takes a longer note.");
    }
}
