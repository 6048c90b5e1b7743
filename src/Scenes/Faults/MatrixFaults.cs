using Athwart.Quantities;
using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rendering;

namespace Athwart.Scenes.Faults;

/// <summary>The side went to the first channel and the mid to the second.</summary>
public sealed record SwappedRoles : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Recorded;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        (take.Mid, take.Side) = (take.Side, take.Mid);
        take.Items.Add(Item(take, FaultKinds.RolesSwapped, 1, ""));
    }
}

/// <summary>The side's polarity is inverted, as by a cable or by its positive lobe pointing right.</summary>
public sealed record InvertedSide : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Electrical;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        Levels.Scale(Samples(take, ChannelRole.Side), -1);
        take.Items.Add(Item(take, FaultKinds.SideInverted, 1, "") with { Role = ChannelRole.Side });
    }
}

/// <summary>The recorder wrote left = h·(mid + g·side) and right = h·(mid − g·side).</summary>
/// <param name="SideLevelDecibels">g.</param>
/// <param name="HeadroomDecibels">h; −6.02 keeps any decode inside full scale at g = 1.</param>
public sealed record AlreadyDecoded(double SideLevelDecibels = 0, double HeadroomDecibels = -6.0205999) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Recorded;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        var (g, h) = (Levels.Ratio(SideLevelDecibels), Levels.Ratio(HeadroomDecibels));
        for (var i = 0; i < take.Frames; i++)
            (take.Mid[i], take.Side[i]) = (h * (take.Mid[i] + (g * take.Side[i])), h * (take.Mid[i] - (g * take.Side[i])));
        take.Items.Add(Item(take, FaultKinds.AlreadyDecoded, SideLevelDecibels, "dB"));
    }
}

/// <summary>The second channel is the first at another level.</summary>
/// <param name="Decibels">The level; 0 is dual mono.</param>
/// <param name="Inverted">Whether the copy's polarity is inverted.</param>
public sealed record CopiedMid(double Decibels = 0, bool Inverted = false) : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Recorded;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        take.Side = [.. take.Mid];
        Levels.Scale(take.Side, Levels.Ratio(Decibels) * (Inverted ? -1 : 1));
        take.Items.Add(Item(take, Decibels == 0 ? FaultKinds.DualMono : FaultKinds.ScaledCopy, Decibels, "dB"));
    }
}
