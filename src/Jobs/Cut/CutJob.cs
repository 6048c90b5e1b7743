using System.Globalization;
using Athwart.Catalogue;
using Athwart.Jobs.Sessions;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.Cut;

/// <summary>Marks effects in a take; nothing is rendered and the originals are not touched.</summary>
public static class CutJob
{
    /// <summary>Marks the cuts in the library; a cut of the same name in the same take is replaced.</summary>
    /// <exception cref="JobException">A place lies outside the take, the end before the start, or there are no markers.</exception>
    public static CutReport Run(CutRequest request, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        using var library = Library.Open(request.Library, LibraryAccess.Write);
        var take = SessionLoader.Require(SessionLoader.Load(library, request.Session, cancellation), request.Take);
        using var recording = take.Description.Open();
        var reader = new PairReader(recording, take.Roles);
        var curve = FadeWords.Parse(request.FadeCurve);
        var cuts = Find(request, take).ConvertAll(c => Snapped(c, request, reader));
        var existing = library.Effects(take.Catalogued.Id).ToDictionary(e => e.Name, StringComparer.Ordinal);
        var effects = cuts.Select(c => Effect(request, take, c, existing)).ToList();
        library.Transaction(() => effects.ForEach(library.SaveEffect));
        return new(take.Name, take.Description.SampleRateHertz, effects, [.. effects.SelectMany(e => ClickCheck.Remarks(e, reader, curve))]);
    }

    private static NamedRange Snapped(NamedRange cut, CutRequest request, PairReader reader)
    {
        if (request.Source != CutSource.Given)
            return cut;
        var from = SnapPoints.Near(reader, cut.From, 0, cut.To - 1, request.Snap);
        return new(cut.Name, from, SnapPoints.Near(reader, cut.To, from + 1, reader.FrameCount, request.Snap));
    }

    private static List<NamedRange> Find(CutRequest request, SessionTake take)
    {
        var frames = take.Description.FrameCount;
        return request.Source switch
        {
            CutSource.Whole => [new(request.Name ?? take.Name, 0, frames)],
            CutSource.Markers => MarkerCuts.Find(take.Description, request.Name),
            _ => [Given(request, take)],
        };
    }

    private static NamedRange Given(CutRequest request, SessionTake take)
    {
        var (rate, frames) = (take.Description.SampleRateHertz, take.Description.FrameCount);
        var from = request.From.Resolve(rate, frames);
        var to = request.To.Resolve(rate, frames);
        if (from < 0 || to > frames || from >= to)
        {
            throw new JobException(
                JobErrorKind.WrongUse,
                string.Create(CultureInfo.InvariantCulture, $"The cut {Seconds(from, rate)} to {Seconds(to, rate)} does not lie inside take '{take.Name}', which lasts {Seconds(frames, rate)}."),
                "Give a start before the end, both inside the take.");
        }

        return new(request.Name ?? take.Name, from, to);
    }

    private static Effect Effect(CutRequest request, SessionTake take, NamedRange cut, Dictionary<string, Effect> existing)
    {
        var rate = take.Description.SampleRateHertz;
        var fadeIn = Frames(request.FadeIn, rate);
        var fadeOut = Frames(request.FadeOut, rate);
        if (fadeIn + fadeOut > cut.To - cut.From)
            throw new JobException(JobErrorKind.WrongUse, string.Create(CultureInfo.InvariantCulture, $"The fades of '{cut.Name}' last longer than its {Seconds(cut.To - cut.From, rate)}."), "Shorten the fades.");
        var effect = new Effect
        {
            Take = take.Catalogued.Id,
            Name = cut.Name,
            Range = FrameRange.FromFrames(cut.From, cut.To),
            FadeIn = new(fadeIn),
            FadeOut = new(fadeOut),
            FadeInCurve = FadeWords.Stored(request.FadeCurve),
            FadeOutCurve = FadeWords.Stored(request.FadeCurve),
            SideLevel = request.SideLevel,
            Tags = request.Tags,
            Notes = request.Notes,
        };
        return existing.TryGetValue(cut.Name, out var before) ? effect with { Id = before.Id } : effect;
    }

    private static long Frames(TimeSpan time, int rate)
    {
        if (time < TimeSpan.Zero)
            throw new JobException(JobErrorKind.WrongUse, "A fade cannot last less than nothing.", "Give 0 or more.");
        return (long)Math.Round(time.TotalSeconds * rate, MidpointRounding.AwayFromZero);
    }

    private static string Seconds(long frames, int rate) => string.Create(CultureInfo.InvariantCulture, $"{(double)frames / rate:0.000} s");
}

/// <summary>A stretch of a take with a name.</summary>
internal sealed record NamedRange(string Name, long From, long To);

/// <summary>Turns the markers that a file carries into cuts.</summary>
internal static class MarkerCuts
{
    /// <summary>One cut a marker, in order of place; labels that repeat are numbered.</summary>
    /// <exception cref="JobException">The take has no markers.</exception>
    public static List<NamedRange> Find(TakeDescription take, string? prefix)
    {
        var markers = take.Markers.Where(m => m.Frame >= 0 && m.Frame < take.FrameCount).OrderBy(m => m.Frame).ToList();
        if (markers.Count == 0)
            throw new JobException(JobErrorKind.WrongUse, $"Take '{take.Name}' carries no markers.", "Give --from and --to, or --whole.");
        var names = new Deliver.Naming.FileNames();
        return [.. markers.Select((marker, i) => new NamedRange(names.Unique(Label(marker, i, prefix)), marker.Frame, End(take, markers, i)))];
    }

    private static long End(TakeDescription take, List<Marker> markers, int i)
    {
        if (markers[i].Length > 0)
            return Math.Min(take.FrameCount, markers[i].Frame + markers[i].Length);
        var next = markers.Skip(i + 1).FirstOrDefault(m => m.Frame > markers[i].Frame);
        return next?.Frame ?? take.FrameCount;
    }

    private static string Label(Marker marker, int i, string? prefix)
    {
        var label = marker.Label.Length > 0 ? marker.Label : string.Create(CultureInfo.InvariantCulture, $"marker {i + 1}");
        return prefix is null ? label : prefix + " " + label;
    }
}
