namespace Athwart.Quantities;

/// <summary>What a channel of a take holds.</summary>
public enum ChannelRole
{
    /// <summary>None of the others, or not known.</summary>
    Other = 0,

    /// <summary>The microphone pointed at the sound.</summary>
    Mid,

    /// <summary>The figure-8 turned 90 degrees, positive lobe to the left.</summary>
    Side,

    /// <summary>The left of a decoded or other stereo pair.</summary>
    Left,

    /// <summary>The right of a decoded or other stereo pair.</summary>
    Right,
}
