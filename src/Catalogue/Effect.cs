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

    /// <summary>The shape of the fade at the start, a word of the jobs; empty is the first they knew, sin².</summary>
    public string FadeInCurve { get; init; } = "";

    /// <summary>The shape of the fade at the end.</summary>
    public string FadeOutCurve { get; init; } = "";

    /// <summary>How its end is led over into its start; null when it is no loop.</summary>
    public EffectLoop? Loop { get; init; }

    /// <summary>Gain of the side against the mid; −∞ is mono; null follows the session.</summary>
    public Decibels? SideLevel { get; init; }

    /// <summary>Words to find it by, in the recordist's order.</summary>
    public IReadOnlyList<string> Tags { get; init; } = [];

    /// <summary>Free text.</summary>
    public string Notes { get; init; } = "";

    /// <summary>Values for the naming template, such as project, scene, location.</summary>
    public IReadOnlyDictionary<string, string> Tokens { get; init; } = new Dictionary<string, string>(StringComparer.Ordinal);
}

/// <summary>The seam of an effect that is played round and round.</summary>
/// <param name="Crossfade">Frames over which its end is led over into its start; 1 or more.</param>
/// <param name="Correlation">How alike the two sounds are there, 0 to 1, which sets the law of the cross-fade.</param>
public sealed record EffectLoop(FrameCount Crossfade, double Correlation);
