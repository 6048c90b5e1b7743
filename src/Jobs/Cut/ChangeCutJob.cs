using System.Globalization;
using Athwart.Catalogue;
using Athwart.Metering.Events;
using Athwart.Quantities;

namespace Athwart.Jobs.Cut;

/// <summary>Moves, splits, joins and removes cuts of the library; the originals are not touched.</summary>
public static class ChangeCutJob
{
    /// <summary>Moves the ends, the fades or the name of a cut.</summary>
    /// <exception cref="JobException">It would not lie in its take, its fades would overlap, or there is no such cut.</exception>
    public static ChangedCuts Edit(CutPlace place, CutChanges changes, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(changes);
        using var open = OpenCut.Find(place, cancellation);
        var (cut, rate) = (open.Cut, open.Rate);
        var (from, to) = (changes.From?.Resolve(rate, open.Frames) ?? cut.Range.From.Value, changes.To?.Resolve(rate, open.Frames) ?? cut.Range.To.Value);
        open.RequireInside(from, to);
        if (changes.From is not null)
            from = SnapPoints.Near(open.Reader, from, 0, to - 1, changes.Snap);
        if (changes.To is not null)
            to = SnapPoints.Near(open.Reader, to, from + 1, open.Frames, changes.Snap);
        var curve = changes.FadeCurve is { } word ? FadeWords.Stored(FadeWords.Of(FadeWords.Parse(word))) : null;
        return open.Save(cut with
        {
            Name = changes.Name ?? cut.Name,
            Range = FrameRange.FromFrames(from, to),
            FadeIn = changes.FadeIn is { } fadeIn ? new(OpenCut.InFrames(fadeIn, rate)) : cut.FadeIn,
            FadeOut = changes.FadeOut is { } fadeOut ? new(OpenCut.InFrames(fadeOut, rate)) : cut.FadeOut,
            FadeInCurve = curve ?? cut.FadeInCurve,
            FadeOutCurve = curve ?? cut.FadeOutCurve,
            SideLevel = changes.SideLevel ?? cut.SideLevel,
        });
    }

    /// <summary>Makes two cuts of one, numbered; each keeps a fade of the old one at its outer end and gets a short one at the new.</summary>
    /// <param name="place">The cut.</param>
    /// <param name="at">Where, in the take.</param>
    /// <param name="snap">To what the place is moved.</param>
    /// <param name="cancellation">Stops it.</param>
    public static ChangedCuts Split(CutPlace place, TakePlace at, CutSnap snap, CancellationToken cancellation)
    {
        using var open = OpenCut.Find(place, cancellation);
        var (cut, rate) = (open.Cut, open.Rate);
        var (from, to, frame) = (cut.Range.From.Value, cut.Range.To.Value, at.Resolve(rate, open.Frames));
        if (frame <= from || frame >= to || cut.Loop is not null)
        {
            throw new JobException(
                JobErrorKind.WrongUse,
                cut.Loop is not null ? $"'{cut.Name}' is a loop and stays in one piece." : string.Create(CultureInfo.InvariantCulture, $"{(double)frame / rate:0.000} s does not lie inside '{cut.Name}', which goes from {(double)from / rate:0.000} to {(double)to / rate:0.000} s."),
                "Name a place inside a cut that is no loop.");
        }

        frame = SnapPoints.Near(open.Reader, frame, from + 1, to - 1, snap);
        var inner = Math.Min(Math.Min(frame - from, to - frame) / 2, rate / 200);
        var (first, second) = open.TwoNames();
        return open.Save(
            cut with { Name = first, Range = FrameRange.FromFrames(from, frame), FadeIn = new(Math.Min(cut.FadeIn.Value, frame - from - inner)), FadeOut = new(inner) },
            cut with { Id = EffectId.New(), Name = second, Range = FrameRange.FromFrames(frame, to), FadeIn = new(inner), FadeOut = new(Math.Min(cut.FadeOut.Value, to - frame - inner)) });
    }

    /// <summary>Makes one cut of two, from the start of the first to the end of the second; it keeps the first's name and settings.</summary>
    public static ChangedCuts Join(CutPlace place, string other, CancellationToken cancellation)
    {
        using var open = OpenCut.Find(place, cancellation);
        var (cut, joined) = (open.Cut, open.Require(other));
        if (cut.Id == joined.Id || cut.Loop is not null || joined.Loop is not null)
            throw new JobException(JobErrorKind.WrongUse, $"'{cut.Name}' and '{joined.Name}' cannot be joined.", "Name two cuts of one take that are no loops.");
        var (first, last) = cut.Range.From.Value <= joined.Range.From.Value ? (cut, joined) : (joined, cut);
        var end = cut.Range.To.Value >= joined.Range.To.Value ? cut : joined;
        open.Remove(joined);
        return open.Save(cut with
        {
            Range = FrameRange.FromFrames(first.Range.From.Value, end.Range.To.Value),
            FadeIn = first.FadeIn,
            FadeInCurve = first.FadeInCurve,
            FadeOut = end.FadeOut,
            FadeOutCurve = end.FadeOutCurve,
            Tags = [.. cut.Tags.Union(last.Tags, StringComparer.Ordinal)],
        });
    }

    /// <summary>Removes a cut; what was delivered of it stays.</summary>
    public static ChangedCuts Remove(CutPlace place, CancellationToken cancellation)
    {
        using var open = OpenCut.Find(place, cancellation);
        open.Remove(open.Cut);
        return open.Save();
    }

    /// <summary>Makes a loop: finds the best pair of places, or takes those given, and marks it as a cut.</summary>
    /// <param name="place">The take, and the loop's name.</param>
    /// <param name="wish">What the loop has to be.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <exception cref="JobException">The take is too short, or the sound before the start does not reach for the cross-fade.</exception>
    public static (ChangedCuts Cut, SeamProof Proof) Loop(CutPlace place, LoopWish wish, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(wish);
        using var open = OpenCut.ForNew(place, cancellation);
        var (rate, frames) = (open.Rate, open.Frames);
        var (from, to) = (wish.From?.Resolve(rate, frames) ?? 0, wish.To?.Resolve(rate, frames) ?? frames);
        open.RequireInside(from, to);
        var settings = LoopSettings.For(open.Reader, from, to, wish.LeastSeconds, wish.CrossfadeSeconds);
        var found = wish.Exactly ? Exactly(open, from, to, settings.CrossfadeFrames) : Found(open, settings, cancellation);
        var cut = open.Cut with { Range = FrameRange.FromFrames(found.FromFrame, found.ToFrame), FadeIn = new(0), FadeOut = new(0), Loop = new(new(found.Seam.CrossfadeFrames), found.Seam.Correlation) };
        return (open.Save(cut), found.Proof);
    }

    private static FoundLoop Exactly(OpenCut open, long from, long to, long crossfade)
    {
        if (crossfade > from || crossfade > to - from)
        {
            throw new JobException(
                JobErrorKind.WrongUse,
                string.Create(CultureInfo.InvariantCulture, $"A cross-fade of {(double)crossfade / open.Rate:0.000} s needs as much sound before the loop's start, and a loop at least as long."),
                "Start later, or cross-fade shorter.");
        }

        var loop = LoopFinding.Seamed(open.Reader, from, to, crossfade);
        return loop with { Proof = SeamMeasure.Prove(open.Reader, from, to, loop.Seam) };
    }

    private static FoundLoop Found(OpenCut open, LoopSettings settings, CancellationToken cancellation)
    {
        var finder = new EventFinder(open.Rate);
        for (long at = 0; at < open.Frames; at += 1 << 16)
        {
            cancellation.ThrowIfCancellationRequested();
            var (mid, side) = open.Reader.Read(at, Math.Min(open.Frames, at + (1 << 16)));
            finder.Add(Array.ConvertAll(mid, x => (float)x), Array.ConvertAll(side, x => (float)x));
        }

        return LoopFinding.Find(open.Reader, finder, settings)
            ?? throw new JobException(JobErrorKind.WrongUse, $"There is no room for a loop in take '{open.TakeName}'.", "Ask for a shorter one with --least and --crossfade.");
    }
}
