using Athwart.Quantities;

namespace Athwart.Catalogue;

/// <summary>One continuous recording of a session, from one or more original files.</summary>
public sealed record CataloguedTake
{
    /// <summary>The id; a new one unless it came from the library.</summary>
    public TakeId Id { get; init; } = TakeId.New();

    /// <summary>The session it belongs to.</summary>
    public required SessionId Session { get; init; }

    /// <summary>Its name, unique within the session.</summary>
    public required string Name { get; init; }

    /// <summary>The files it is made of, in the order the take was assembled.</summary>
    public required IReadOnlyList<CataloguedPart> Parts { get; init; }

    /// <summary>Channels of the whole take.</summary>
    public required int ChannelCount { get; init; }

    /// <summary>Frames per second.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>The sample format in words, such as '24-bit integer'.</summary>
    public required string Format { get; init; }

    /// <summary>Length of the take.</summary>
    public required FrameCount Length { get; init; }

    /// <summary>How the files were joined, such as 'single' or 'mono-pair'.</summary>
    public string Join { get; init; } = "";

    /// <summary>On what evidence they were joined, a sentence each.</summary>
    public IReadOnlyList<string> JoinEvidence { get; init; } = [];

    /// <summary>What the recordist set for this take alone.</summary>
    public TakeRoles Roles { get; init; } = new();

    /// <summary>What decided which channel is what, one sentence.</summary>
    public string RoleEvidence { get; init; } = "";

    /// <summary>Whether it was decided that the mid came in on channel 2.</summary>
    public bool IsSwapped { get; init; }
}

/// <summary>The piece of an original file that a take uses.</summary>
/// <param name="File">The original file.</param>
/// <param name="FirstFrame">The frame of the take where the piece begins.</param>
/// <param name="Length">How many frames it gives.</param>
/// <param name="FirstChannel">Index of the take's channel that its first channel becomes, counted from 0.</param>
/// <param name="ChannelCount">How many channels it gives.</param>
public sealed record CataloguedPart(FileId File, FrameIndex FirstFrame, FrameCount Length, int FirstChannel, int ChannelCount);

/// <summary>Roles the recordist set by hand for one take; null leaves the decision to the evidence.</summary>
public sealed record TakeRoles
{
    /// <summary>The mid channel, counted from 1.</summary>
    public int? MidChannel { get; init; }

    /// <summary>The side channel, counted from 1.</summary>
    public int? SideChannel { get; init; }

    /// <summary>Whether the side is to be turned over.</summary>
    public bool? InvertSide { get; init; }
}

/// <summary>The measures of a take as their owner wrote them.</summary>
/// <param name="Version">The version of the layout of <paramref name="Json"/>, set and understood by the job that measures.</param>
/// <param name="Json">One JSON document.</param>
public sealed record StoredMeasures(int Version, string Json);
