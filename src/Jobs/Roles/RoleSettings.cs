namespace Athwart.Jobs.Roles;

/// <summary>What the recordist says about the channels, for a take or for a whole session; null leaves it to the evidence.</summary>
/// <param name="MidChannel">The channel of the mid, counted from 1.</param>
/// <param name="SideChannel">The channel of the side, counted from 1.</param>
/// <param name="SideInverted">Whether the side's positive lobe pointed right, so that it must be turned over.</param>
public sealed record RoleSettings(int? MidChannel, int? SideChannel, bool? SideInverted)
{
    /// <summary>Nothing said.</summary>
    public static RoleSettings None { get; } = new(null, null, null);

    /// <summary>Whether both channels are named.</summary>
    public bool NamesChannels => MidChannel is not null && SideChannel is not null;
}
