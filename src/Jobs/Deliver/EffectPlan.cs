using Athwart.Jobs.LineUp;
using Athwart.Jobs.Shape;
using Athwart.Quantities;

namespace Athwart.Jobs.Deliver;

/// <summary>One effect to deliver.</summary>
internal sealed record EffectPlan
{
    /// <summary>The effect's name.</summary>
    public required string Name { get; init; }

    /// <summary>Its number in the delivery, from 1.</summary>
    public int Index { get; init; }

    /// <summary>The first frame of the cut, in the take.</summary>
    public long From { get; init; }

    /// <summary>The frame after the last.</summary>
    public required long To { get; init; }

    /// <summary>Frames of fade at the start.</summary>
    public long FadeIn { get; init; }

    /// <summary>Frames of fade at the end.</summary>
    public long FadeOut { get; init; }

    /// <summary>The shape of the fade at the start; null is sin².</summary>
    public string? FadeInCurve { get; init; }

    /// <summary>The shape of the fade at the end.</summary>
    public string? FadeOutCurve { get; init; }

    /// <summary>The seam of a loop; null when it is none.</summary>
    public Render.RecipeLoop? Loop { get; init; }

    /// <summary>The side level that the cut itself asks for; null for none.</summary>
    public Decibels? CutSideLevel { get; init; }

    /// <summary>The side level that is used.</summary>
    public Decibels SideLevel { get; init; }

    /// <summary>What is done to mid and side; null for nothing.</summary>
    public Treatment? Treatment { get; init; }

    /// <summary>What that came to for this cut; null until it is settled, and without a treatment.</summary>
    public SettledTreatment? Treated { get; init; }

    /// <summary>The rig of the session, as a line-up measured it; null for none.</summary>
    public RigProfileDocument? Rig { get; init; }

    /// <summary>Words to find it by.</summary>
    public IReadOnlyList<string> Tags { get; init; } = [];

    /// <summary>A sentence about it.</summary>
    public string Notes { get; init; } = "";

    /// <summary>The date of the session, where the files carry none.</summary>
    public DateOnly SessionDate { get; init; }

    /// <summary>SHA-256 of the take's first original.</summary>
    public string SourceSha256 { get; init; } = "";

    /// <summary>What the last check of the take found, as the catalogue has it; empty when it was never checked.</summary>
    public IReadOnlyList<Finding> Checked { get; init; } = [];

    /// <summary>The effect in the catalogue; null for a take delivered whole without a cut.</summary>
    public Catalogue.EffectId? Id { get; init; }
}
