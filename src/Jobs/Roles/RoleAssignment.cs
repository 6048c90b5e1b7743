namespace Athwart.Jobs.Roles;

/// <summary>What settled which channel is mid and which is side, strongest first.</summary>
public enum RoleEvidence
{
    /// <summary>The recordist said so for this take.</summary>
    TakeSetting = 0,

    /// <summary>The file's iXML track functions.</summary>
    TrackFunction,

    /// <summary>The file's track names.</summary>
    TrackName,

    /// <summary>What the session says of its takes.</summary>
    SessionSetting,

    /// <summary>Nothing said: channel 1 is mid and channel 2 is side, common practice.</summary>
    ChannelOrder,

    /// <summary>The take has one channel, so there is no side.</summary>
    OneChannel,
}

/// <summary>Which channel of a take is which. Channels count from 0 here; people are shown them from 1.</summary>
public sealed record RoleAssignment
{
    /// <summary>The channel of the mid, from 0.</summary>
    public required int MidChannel { get; init; }

    /// <summary>The channel of the side, from 0; null when the take has none.</summary>
    public required int? SideChannel { get; init; }

    /// <summary>Whether the side must be turned over before decoding.</summary>
    public bool SideInverted { get; init; }

    /// <summary>The recorder's own left, from 0; null when there is none.</summary>
    public int? LeftChannel { get; init; }

    /// <summary>The recorder's own right, from 0; null when there is none.</summary>
    public int? RightChannel { get; init; }

    /// <summary>What settled it.</summary>
    public required RoleEvidence Evidence { get; init; }

    /// <summary>One sentence that says what settled it, with the words found in the file.</summary>
    public required string Explanation { get; init; }

    /// <summary>Whether the file says that its two channels are left and right, not mid and side.</summary>
    public bool SaysLeftRight { get; init; }
}
