namespace Athwart.Jobs.Shape;

/// <summary>What the steps of a treatment are held to together; each step's own settings are held to theirs when they are read.</summary>
internal static class TreatmentRules
{
    /// <summary>The treatment, if its steps do not contradict each other.</summary>
    /// <exception cref="JobException">They do: the steps, the rule and the remedy are named.</exception>
    public static Treatment Checked(Treatment treatment, string name)
    {
        Require(treatment.Name.Trim().Length > 0, name, "name", "a treatment has a name", "Give it one.");
        for (var i = 0; i < treatment.Steps.Count; i++)
            AfterGuard(treatment.Steps, i, name);
        TreatmentDecodes.Check(treatment.Decode, name);
        return treatment;
    }

    // What follows a guard would undo what it holds.
    private static void AfterGuard(IReadOnlyList<TreatmentStep> steps, int i, string name)
    {
        for (var earlier = 0; earlier < i; earlier++)
        {
            Require(
                !steps[earlier].Kind.IsGuard || steps[i].Kind.IsGuard,
                name,
                FormattableString.Invariant($"steps[{i}] '{steps[i].Kind.Name}'"),
                FormattableString.Invariant($"nothing follows the guard at steps[{earlier}], whose limit it could break"),
                "Put it before the guard.");
        }
    }

    internal static void Require(bool kept, string name, string place, string rule, string remedy)
    {
        if (!kept)
            throw new JobException(JobErrorKind.WrongUse, $"{name}, {place}: broken rule: {rule}.", remedy);
    }
}
