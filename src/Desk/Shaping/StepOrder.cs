using Athwart.Jobs.Shape;

namespace Athwart.Desk.Shaping;

/// <summary>Steps in their order, as a hand puts them.</summary>
internal static class StepOrder
{
    /// <summary>With one more: at the end, or before the guards, which nothing may follow.</summary>
    public static IReadOnlyList<TreatmentStep> Added(IReadOnlyList<TreatmentStep> steps, TreatmentStep step)
    {
        var at = step.Kind.IsGuard ? steps.Count : steps.TakeWhile(s => !s.Kind.IsGuard).Count();
        return [.. steps.Take(at), step, .. steps.Skip(at)];
    }

    /// <summary>With one moved by so many places; by none, it goes away.</summary>
    public static IReadOnlyList<TreatmentStep> Moved(IReadOnlyList<TreatmentStep> steps, int at, int by)
    {
        var moved = steps.ToList();
        moved.RemoveAt(at);
        if (by != 0)
            moved.Insert(Math.Clamp(at + by, 0, moved.Count), steps[at]);
        return moved;
    }
}
