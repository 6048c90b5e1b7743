using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rendering;

namespace Athwart.Scenes.Faults;

/// <summary>A role at the wrong level, microphone noise included: a cable, a battery, a bumped gain.</summary>
/// <param name="Decibels">What is added to the level; −∞ for a dead role.</param>
public sealed record GainFault(double Decibels) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Electrical;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        foreach (var role in WorkingTake.Roles(Role))
        {
            if (IsWhole(take) && double.IsFinite(Decibels))
                take.Amplify(role, Levels.Ratio(Decibels));
            else
                Levels.Scale(Samples(take, role), Levels.Ratio(Decibels));
        }

        var kind = double.IsNegativeInfinity(Decibels) ? FaultKinds.RoleDead : Decibels < 0 ? FaultKinds.RoleWeak : FaultKinds.RoleStrong;
        take.Items.Add(Item(take, kind, Decibels, "dB"));
    }
}
