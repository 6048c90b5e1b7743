using Athwart.Quantities;

namespace Athwart.Catalogue;

/// <summary>A named, tagged cut of a take with what shapes it.</summary>
public sealed record Effect
{
    /// <summary>The id; a new one unless it came from the library.</summary>
    public EffectId Id { get; init; } = EffectId.New();

    /// <summary>The take it is cut from.</summary>
    public required TakeId Take { get; init; }

    /// <summary>Its name, unique within the take.</summary>
    public required string Name { get; init; }

    /// <summary>From where to where it is cut.</summary>
    public required FrameRange Range { get; init; }

    /// <summary>Length of the fade at the start; 0 is none.</summary>
    public FrameCount FadeIn { get; init; }

    /// <summary>Length of the fade at the end; 0 is none.</summary>
    public FrameCount FadeOut { get; init; }

    /// <summary>Gain of the side against the mid; −∞ is mono; null follows the session.</summary>
    public Decibels? SideLevel { get; init; }

    /// <summary>Words to find it by, in the recordist's order.</summary>
    public IReadOnlyList<string> Tags { get; init; } = [];

    /// <summary>Free text.</summary>
    public string Notes { get; init; } = "";

    /// <summary>Values for the naming template, such as project, scene, location.</summary>
    public IReadOnlyDictionary<string, string> Tokens { get; init; } = new Dictionary<string, string>(StringComparer.Ordinal);
}
