using Athwart.Jobs.Render;
using Athwart.Quantities;

namespace Athwart.Jobs.Deliver;

/// <summary>Which effects to deliver, where to and how.</summary>
public sealed record DeliverRequest
{
    /// <summary>The library's folder.</summary>
    public required string Library { get; init; }

    /// <summary>The session, by name or by the start of its id.</summary>
    public required string Session { get; init; }

    /// <summary>The delivery's folder; made when it is not there, and it must not hold a delivery yet.</summary>
    public required string Folder { get; init; }

    /// <summary>Only these takes, by name; all takes of the session when empty.</summary>
    public IReadOnlyList<string> Takes { get; init; } = [];

    /// <summary>Only these effects, by name; all when empty.</summary>
    public IReadOnlyList<string> Effects { get; init; } = [];

    /// <summary>The title of the delivery; the session's name unless said.</summary>
    public string? Title { get; init; }

    /// <summary>The name template; see docs/deliver.md.</summary>
    public string Template { get; init; } = Naming.NameTemplate.Default;

    /// <summary>Side level where the cut itself says none; null for the session's, else 0 dB.</summary>
    public Decibels? SideLevel { get; init; }

    /// <summary>The treatment of effects that have none of their own: a name or a file; null for the take's, if it has one.</summary>
    public string? Treatment { get; init; }

    /// <summary>The word of stereo and mono; null keeps the take's, floats stay floats.</summary>
    public OutputWord? Word { get; init; }

    /// <summary>The rate of stereo and mono in hertz; null keeps the take's.</summary>
    public int? SampleRateHertz { get; init; }

    /// <summary>How the output is trimmed; not at all unless said.</summary>
    public TrimRequest Trim { get; init; } = TrimRequest.None;

    /// <summary>Whether a mono file is delivered too.</summary>
    public bool Mono { get; init; }

    /// <summary>Who recorded it: the originator of the files.</summary>
    public string Recordist { get; init; } = "";

    /// <summary>The project; the one the takes name unless said.</summary>
    public string? Project { get; init; }

    /// <summary>A category word for the names.</summary>
    public string Category { get; init; } = "";

    /// <summary>How many effects are made at once; the number of processors unless said.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;
}
