using Athwart.Jobs.LineUp;
using Athwart.Signals.Shaping;

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
    public static ResponseMatch? Response(RigProfileDocument rig)
    {
        List<CurvePoint> bands =
        [
            .. rig.Response
                .Where(b => b.Hertz is >= 20 and <= 20_000)
                .Select(b => new CurvePoint(b.Hertz, Math.Clamp(b.CorrectionDecibels, -ResponseMatch.MostCorrectionDecibels, ResponseMatch.MostCorrectionDecibels))),
        ];
        return bands.Count == 0 || bands.TrueForAll(b => b.Decibels == 0) ? null : new(PairRoles.Side, bands);
    }
}
