namespace Athwart.Jobs.TakeIn;

/// <summary>Which card to take in, and where to.</summary>
public sealed record TakeInRequest
{
    /// <summary>The folder of the card, or loose files, or several of either.</summary>
    public required IReadOnlyList<string> Sources { get; init; }

    /// <summary>The folder of the library; made when it is not there.</summary>
    public required string LibraryFolder { get; init; }

    /// <summary>What the session is called. With <see cref="Date"/> it names one session; taking in again adds to it.</summary>
    public required string SessionName { get; init; }

    /// <summary>The day of the recording.</summary>
    public required DateOnly Date { get; init; }
}
