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
    /// <param name="from">The first frame that is wanted.</param>
    /// <param name="to">The frame of the take after the last that is wanted.</param>
    public static TreatedChain Open(IRecording take, RoleAssignment roles, IReadOnlyList<TreatmentStep> steps, double sideGain, long from, long to) => new(
        () => new TakePair(take, roles.MidChannel, roles.SideChannel, roles.SideInverted), steps, new(take.SampleRateHertz, sideGain, take.FrameCount), from, to - from);
}
