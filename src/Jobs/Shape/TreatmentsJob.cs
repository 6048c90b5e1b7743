using Athwart.Catalogue;
using Athwart.Jobs.Sessions;

namespace Athwart.Jobs.Shape;

/// <summary>A treatment by name, and where it comes from.</summary>
/// <param name="Treatment">The treatment.</param>
/// <param name="Kept">Whether it is kept in the library; otherwise it comes with the program.</param>
public sealed record ListedTreatment(Treatment Treatment, bool Kept);

/// <summary>To which takes or effects a treatment is applied.</summary>
public sealed record ApplyRequest
{
    /// <summary>The library's folder.</summary>
    public required string Library { get; init; }

    /// <summary>The session, by name or by the start of its id.</summary>
    public required string Session { get; init; }

    /// <summary>The treatment, by name or as a file; null takes treatments away.</summary>
    public string? Treatment { get; init; }

    /// <summary>The takes; every take of the session when empty and no effect is named.</summary>
    public IReadOnlyList<string> Takes { get; init; } = [];

    /// <summary>The effects, by name.</summary>
    public IReadOnlyList<string> Effects { get; init; } = [];
}

/// <summary>Keeps treatments in a library and applies them to takes and effects; every change can be undone.</summary>
public sealed class TreatmentsJob(TimeProvider? clock = null)
{
    private readonly TimeProvider _clock = clock ?? TimeProvider.System;

    /// <summary>The kept treatments and those that come with the program, by name.</summary>
    /// <param name="library">The library's folder; null for the program's alone.</param>
    public static IReadOnlyList<ListedTreatment> List(string? library)
    {
        List<ListedTreatment> kept = [];
        if (library is not null)
        {
            using var opened = Library.Open(library, LibraryAccess.Read);
            kept.AddRange(opened.Treatments(TreatmentScope.Name).Select(t => new ListedTreatment(TreatmentFiles.FromJson(t.Json, t.Key), true)));
        }

        var own = StartingTreatments.All.Where(s => !kept.Exists(k => Same(k.Treatment.Name, s.Name))).Select(s => new ListedTreatment(s, false));
        return [.. kept.Concat(own).OrderBy(t => t.Treatment.Name, StringComparer.OrdinalIgnoreCase)];
    }

    /// <summary>The treatment of this name or file.</summary>
    public static Treatment Show(string? library, string nameOrPath)
    {
        if (library is null)
            return TreatmentShelf.Find(null, nameOrPath);
        using var opened = Library.Open(library, LibraryAccess.Read);
        return TreatmentShelf.Find(opened, nameOrPath);
    }

    /// <summary>Keeps a treatment under its name; one of that name is replaced.</summary>
    public Treatment Keep(string library, Treatment treatment)
    {
        ArgumentNullException.ThrowIfNull(treatment);
        TreatmentRules.Checked(treatment, $"treatment '{treatment.Name}'");
        using var opened = Library.Open(library, LibraryAccess.Write);
        opened.ChangeTreatments($"keep '{treatment.Name}'", _clock.GetLocalNow(), [new(TreatmentScope.Name, treatment.Name, TreatmentFiles.ToJson(treatment))]);
        return treatment;
    }

    /// <summary>Takes a kept treatment away; takes and effects it was applied to keep theirs.</summary>
    /// <exception cref="JobException">None of that name is kept.</exception>
    public void Remove(string library, string name)
    {
        using var opened = Library.Open(library, LibraryAccess.Write);
        if (opened.GetTreatment(TreatmentScope.Name, name) is null)
            throw new JobException(JobErrorKind.WrongUse, $"No treatment '{name}' is kept in this library.", "List them with 'athwart shape list --library DIR'.");
        opened.ChangeTreatments($"remove '{name}'", _clock.GetLocalNow(), [new(TreatmentScope.Name, name, null)]);
    }

    /// <summary>Applies a treatment to takes or effects, as one change.</summary>
    /// <returns>What it was applied to, by name.</returns>
    /// <exception cref="JobException">Something named is not there, or it is made for another rig.</exception>
    public IReadOnlyList<string> Apply(ApplyRequest request, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        using var library = Library.Open(request.Library, LibraryAccess.Write);
        var session = SessionLoader.Load(library, request.Session, cancellation);
        var treatment = request.Treatment is null ? null : TreatmentShelf.Find(library, request.Treatment);
        if (treatment is not null)
            TreatmentSettler.RequireRig(treatment, TreatmentShelf.RigOf(library, session.Session.Id));
        var targets = Targets(library, session, request);
        var json = treatment is null ? null : TreatmentFiles.ToJson(treatment);
        var what = treatment is null ? "no treatment" : $"'{treatment.Name}'";
        library.ChangeTreatments(FormattableString.Invariant($"{what} for {targets.Count} of session '{session.Session.Name}'"), _clock.GetLocalNow(), [.. targets.Select(t => new TreatmentChange(t.Scope, t.Key, json))]);
        return [.. targets.Select(t => t.Name)];
    }

    /// <summary>The treatment of a take, an effect or what puts a take right, as it was edited; one change that can be undone.</summary>
    /// <param name="library">The library's folder.</param>
    /// <param name="place">What it belongs to.</param>
    /// <param name="edit">Its JSON when the editing began, and the treatment as it is to be; null for none.</param>
    /// <param name="what">In words, for the history.</param>
    /// <exception cref="JobException">It was changed meanwhile, or its steps contradict each other.</exception>
    public void Set(string library, (TreatmentScope Scope, string Key) place, (string? Before, Treatment? After) edit, string what)
    {
        if (edit.After is { } after)
            TreatmentRules.Checked(after, $"treatment '{after.Name}'");
        using var opened = Library.Open(library, LibraryAccess.Write);
        opened.Transaction(() =>
        {
            if (!string.Equals(opened.GetTreatment(place.Scope, place.Key)?.Json, edit.Before, StringComparison.Ordinal))
                throw new JobException(JobErrorKind.Refused, "The treatment was changed meanwhile, in another window or by a command.", "Look at it again and make your change anew.");
            opened.ChangeTreatments(what, _clock.GetLocalNow(), [new(place.Scope, place.Key, Json(edit.After))]);
        });
    }

    /// <summary>Undoes the latest change; null when there is none.</summary>
    public static TreatmentHistoryEntry? Undo(string library)
    {
        using var opened = Library.Open(library, LibraryAccess.Write);
        return opened.UndoTreatments();
    }

    /// <summary>Does again what was undone last; null when there is nothing.</summary>
    public static TreatmentHistoryEntry? Redo(string library)
    {
        using var opened = Library.Open(library, LibraryAccess.Write);
        return opened.RedoTreatments();
    }

    /// <summary>The latest changes first.</summary>
    public static IReadOnlyList<TreatmentHistoryEntry> History(string library)
    {
        using var opened = Library.Open(library, LibraryAccess.Read);
        return opened.TreatmentHistory();
    }

    private static List<(TreatmentScope Scope, string Key, string Name)> Targets(Library library, SessionTakes session, ApplyRequest request)
    {
        var takes = request.Takes.Count > 0 ? [.. request.Takes.Select(n => SessionLoader.Require(session, n))]
            : request.Effects.Count > 0 ? [] : session.Takes;
        var effects = library.Effects(session.Session.Id);
        var targets = takes.Select(t => (TreatmentScope.Take, t.Catalogued.Id.Value, t.Name)).ToList();
        foreach (var name in request.Effects)
        {
            var found = effects.Where(e => Same(e.Name, name)).ToList();
            if (found.Count == 0)
                throw new JobException(JobErrorKind.WrongUse, $"No effect '{name}' is marked in session '{session.Session.Name}'.", "List them with 'athwart takes'.");
            targets.AddRange(found.Select(e => (TreatmentScope.Effect, e.Id.Value, e.Name)));
        }

        return targets.Count > 0 ? targets : throw new JobException(JobErrorKind.WrongUse, $"Session '{session.Session.Name}' holds nothing to treat.", "Take in a card first.");
    }

    private static string? Json(Treatment? treatment) => treatment is null || (treatment.Steps.Count == 0 && treatment.Decode is null) ? null : TreatmentFiles.ToJson(treatment);

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);
}
