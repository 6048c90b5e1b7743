using Athwart.Catalogue;
using Athwart.Jobs.Sessions;
using Athwart.Jobs.Shape;
using Athwart.Quantities;

namespace Athwart.Jobs.Deliver;

/// <summary>Settles which effects are delivered: the cuts of each take, or the whole take where none is marked.</summary>
internal static class EffectPlanner
{
    /// <summary>The effects in order of take and place, numbered from 1.</summary>
    /// <exception cref="JobException">A take or effect that was named is not there, or nothing is left to deliver.</exception>
    public static IReadOnlyList<(SessionTake Take, EffectPlan Effect)> Plan(Library library, SessionTakes session, DeliverRequest request)
    {
        var takes = request.Takes.Count == 0 ? session.Takes : request.Takes.Select(n => SessionLoader.Require(session, n)).ToList();
        var plans = new List<(SessionTake, EffectPlan)>();
        var named = request.Treatment is null ? null : TreatmentShelf.Find(library, request.Treatment);
        var rig = TreatmentShelf.RigOf(library, session.Session.Id);
        foreach (var take in takes)
        {
            var cuts = library.Effects(take.Catalogued.Id).OrderBy(e => e.Range.From).ThenBy(e => e.Name, StringComparer.Ordinal).ToList();
            var effects = cuts.Count > 0 ? cuts.Select(c => FromCut(c)) : [Whole(take)];
            foreach (var effect in effects.Where(e => IsWanted(e, request)))
                plans.Add((take, Settled(library, session.Session, take, effect with { Treatment = TreatmentShelf.For(library, take.Catalogued.Id, effect.Id, named), Rig = rig }, request, plans.Count + 1)));
        }

        foreach (var name in request.Effects.Where(n => !plans.Exists(p => Same(p.Item2.Name, n))))
            throw new JobException(JobErrorKind.WrongUse, $"No effect '{name}' is marked in session '{session.Session.Name}'.", "List them with: athwart takes --library DIR --session NAME.");
        return plans.Count > 0
            ? plans
            : throw new JobException(JobErrorKind.WrongUse, $"Session '{session.Session.Name}' holds nothing to deliver.", "Take in a card, or name other takes.");
    }

    private static bool IsWanted(EffectPlan effect, DeliverRequest request) =>
        request.Effects.Count == 0 || request.Effects.Any(n => Same(n, effect.Name));

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);

    private static EffectPlan FromCut(Effect cut) => new()
    {
        Id = cut.Id,
        Name = cut.Name,
        From = cut.Range.From.Value,
        To = cut.Range.To.Value,
        FadeIn = cut.FadeIn.Value,
        FadeOut = cut.FadeOut.Value,
        FadeInCurve = cut.FadeInCurve.Length > 0 ? cut.FadeInCurve : null,
        FadeOutCurve = cut.FadeOutCurve.Length > 0 ? cut.FadeOutCurve : null,
        Loop = cut.Loop is { } loop ? new(loop.Crossfade.Value, loop.Correlation) : null,
        CutSideLevel = cut.SideLevel,
        Tags = cut.Tags,
        Notes = cut.Notes,
    };

    private static EffectPlan Whole(SessionTake take) => new()
    {
        Name = take.Name,
        To = take.Description.FrameCount,
        Notes = take.Description.Production?.Note ?? "",
    };

    // A width that depends on the sound is measured now: names and metadata say it.
    private static EffectPlan Settled(Library library, Session session, SessionTake take, EffectPlan effect, DeliverRequest request, int index)
    {
        if (effect.Treatment is { } treatment)
        {
            effect = effect with
            {
                Treated = TreatmentSettler.Settle(treatment, effect.Rig, steps =>
                {
                    using var recording = take.Description.Open();
                    return PairPowers.Measure(recording, take.Roles, steps, effect.From, effect.To, CancellationToken.None);
                }),
            };
        }

        return Settle(library, session, take, effect, request, index);
    }

    private static EffectPlan Settle(Library library, Session session, SessionTake take, EffectPlan effect, DeliverRequest request, int index) => effect with
    {
        Index = index,
        // A take without a side is delivered with none, unless a step makes one.
        SideLevel = take.Roles.SideChannel is null && effect.Treated?.MakesSide is not true ? Decibels.Silence : effect.CutSideLevel ?? effect.Treated?.SideLevel ?? request.SideLevel ?? session.Defaults.SideLevel ?? Decibels.Unity,
        SessionDate = session.Date,
        Checked = library.Findings(take.Catalogued.Id),
        SourceSha256 = library.GetFile(take.Catalogued.Parts[0].File)?.Sha256 ?? "",
    };
}
