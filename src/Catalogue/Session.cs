using Athwart.Quantities;

namespace Athwart.Catalogue;

/// <summary>One outing: a card taken in on one day.</summary>
public sealed record Session
{
    /// <summary>The id; a new one unless it came from the library.</summary>
    public SessionId Id { get; init; } = SessionId.New();

    /// <summary>What the recordist calls it; with the date it names one session.</summary>
    public required string Name { get; init; }

    /// <summary>The day of the recording.</summary>
    public required DateOnly Date { get; init; }

    /// <summary>The folder of its originals, relative to the library, with '/' between; chosen by the library.</summary>
    public string Folder { get; init; } = "";

    /// <summary>Free text.</summary>
    public string Notes { get; init; } = "";

    /// <summary>What holds for its takes unless a take says otherwise.</summary>
    public SessionDefaults Defaults { get; init; } = new();
}

/// <summary>What the recordist said about all takes of a session.</summary>
public sealed record SessionDefaults
{
    /// <summary>Index of the mid channel, counted from 0; null when not said.</summary>
    public int? MidChannel { get; init; }

    /// <summary>Index of the side channel, counted from 0; null when not said.</summary>
    public int? SideChannel { get; init; }

    /// <summary>Whether the positive lobe of the side pointed right, so that the side is to be turned over; null when not said.</summary>
    public bool? InvertSide { get; init; }

    /// <summary>Gain of the side against the mid; −∞ is mono; null when not said.</summary>
    public Decibels? SideLevel { get; init; }
}
