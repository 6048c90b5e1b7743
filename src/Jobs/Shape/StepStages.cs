using Athwart.Jobs.Render;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape;

/// <summary>Puts steps to work at a rate.</summary>
internal static class StepStages
{
    /// <summary>The stage of a step.</summary>
    /// <exception cref="RenderException">The step does not go with the rate; step, rule and remedy are named.</exception>
    public static IPairStage Make(TreatmentStep step, StepPlace place)
    {
        try
        {
            return step.Kind.Stage(step.Settings, place);
        }
        catch (ArgumentException e)
        {
            throw new RenderException(RenderErrorKind.Request, FormattableString.Invariant($"Step '{step}' does not go with a take at {place.SampleRateHertz} Hz: {e.Message}"), inner: e);
        }
    }
}
