using Athwart.Quantities;

namespace Athwart.Metering.Events;

/// <summary>A sound that stands out of what surrounds it.</summary>
public sealed record FoundEvent
{
    /// <summary>From where it rises over the floor to where it has gone down to it: where its own power is that of the floor.</summary>
    public required FrameRange Range { get; init; }

    /// <summary>Where it stands furthest out, a frame.</summary>
    public required long PeakFrame { get; init; }

    /// <summary>How far it stands out there, in the band and signal where it does most.</summary>
    public required Decibels Height { get; init; }

    /// <summary>Which of the four signals that is.</summary>
    public required ChannelRole Role { get; init; }
}
