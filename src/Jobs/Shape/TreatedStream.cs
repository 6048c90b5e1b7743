using Athwart.Jobs.Roles;
using Athwart.Recordings;

namespace Athwart.Jobs.Shape;

/// <summary>Opens a take as mid and side after steps.</summary>
internal static class TreatedStream
{
    /// <summary>The stream.</summary>
    /// <param name="take">The take.</param>
    /// <param name="roles">Which channel is which.</param>
    /// <param name="steps">What is done.</param>
    /// <param name="sideGain">g of the decode that follows.</param>
    public static TreatedPair Open(IRecording take, RoleAssignment roles, IReadOnlyList<TreatmentStep> steps, double sideGain) => new(
        new TakePair(take, roles.MidChannel, roles.SideChannel, roles.SideInverted),
        [.. steps.Select(s => StepStages.Make(s, new(take.SampleRateHertz, sideGain)))]);
}
