using Athwart.Jobs.TakeIn;
using Athwart.Recordings;

namespace Athwart.Jobs.Cards;

/// <summary>What is on a card, before anything is copied.</summary>
public sealed record CardLook
{
    /// <summary>The folder, as it was named.</summary>
    public required string Folder { get; init; }

    /// <summary>The takes, put together from their files.</summary>
    public required IReadOnlyList<TakeDescription> Takes { get; init; }

    /// <summary>Files that look like recordings and cannot be read.</summary>
    public required IReadOnlyList<RefusedFile> Refused { get; init; }

    /// <summary>Files that are no recordings, relative to the card; they are copied too.</summary>
    public required IReadOnlyList<string> Others { get; init; }

    /// <summary>What will be left alone, and why.</summary>
    public required IReadOnlyList<SkippedEntry> Skipped { get; init; }

    /// <summary>How many files will be copied.</summary>
    public required int Files { get; init; }

    /// <summary>How many bytes.</summary>
    public required long Bytes { get; init; }
}

/// <summary>Looks at a card: the names and headers of its files only, so it is quick. Nothing is written.</summary>
public static class LookAtCardJob
{
    /// <summary>Looks.</summary>
    /// <exception cref="TakeInException">There is no such folder, or it cannot be listed.</exception>
    public static CardLook Run(string folder, CancellationToken cancellation)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(folder);
        var listing = CardListing.Of([folder]);
        var recordings = listing.Files.Where(f => RecordingNames.LooksLikeRecording(f.FullPath)).ToList();
        var assembly = TakeAssembler.Assemble([.. recordings.Select(f => f.FullPath)], cancellation);
        return new()
        {
            Folder = folder,
            Takes = assembly.Takes,
            Refused = assembly.Refused,
            Others = [.. listing.Files.Except(recordings).Select(f => f.CardPath)],
            Skipped = listing.Skipped,
            Files = listing.Files.Count,
            Bytes = listing.Files.Sum(f => f.Length),
        };
    }
}
