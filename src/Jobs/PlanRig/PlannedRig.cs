using Athwart.Microphones.Choosing;
using Athwart.Microphones.Equipment;
using Athwart.Microphones.Rigs;
using Athwart.Quantities;

namespace Athwart.Jobs.PlanRig;

/// <summary>A rig whose parts and side level are found.</summary>
/// <param name="Mid">The mid.</param>
/// <param name="Side">The side.</param>
/// <param name="Recorder">The recorder, or null.</param>
/// <param name="Protection">The wind protection, or null.</param>
/// <param name="SideLevel">The side level to decode at.</param>
/// <param name="How">How the side level was found, one sentence; says so where a wish could not be met.</param>
/// <param name="Reached">Whether the wish was met.</param>
public sealed record PlannedRig(MicrophoneChoice Mid, MicrophoneChoice Side, Recorder? Recorder, WindProtection? Protection, Decibels SideLevel, string How, bool Reached)
{
    /// <summary>'MID + SIDE @ LEVEL', as <see cref="RigWish.Parse"/> reads it.</summary>
    public string Words => RigWords.Of(Mid.Name, Side.Name, SideLevel);

    /// <summary>The two patterns at the side level.</summary>
    public MidSidePair Pair => new(Mid.Setting.Pattern, Side.Setting.Pattern, SideLevel);
}
