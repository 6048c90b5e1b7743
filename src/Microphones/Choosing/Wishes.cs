using Athwart.Microphones.Equipment;
using Athwart.Microphones.Levels;
using Athwart.Quantities;

namespace Athwart.Microphones.Choosing;

/// <summary>What can matter more or less when two pairs both do.</summary>
public enum Matter
{
    /// <summary>How near the coverage comes to the wanted one.</summary>
    Coverage = 0,

    /// <summary>The noise of the decoded left and right.</summary>
    Noise,

    /// <summary>The price of what has to be bought.</summary>
    Cost,

    /// <summary>What hangs on the boom.</summary>
    Weight,
}

/// <summary>What is asked of a pair. What is null is not asked.</summary>
public sealed record Wishes
{
    /// <summary>How far above the decoded noise the quietest wanted sound is to lie, 10 dB: common practice, no source.</summary>
    public const double CommonQuietMarginDecibels = 10;

    /// <summary>The most that may be spent on what is not owned.</summary>
    public Price? Budget { get; init; }

    /// <summary>The coverage wanted, full angle.</summary>
    public Degrees? Coverage { get; init; }

    /// <summary>The level difference at which a sound counts as fully to one side.</summary>
    public Decibels Threshold { get; init; } = Rigs.Coverage.FullSide;

    /// <summary>The side level, when it is given; otherwise it is searched for the coverage, or is 0 dB.</summary>
    public Decibels? SideLevel { get; init; }

    /// <summary>RMS level in dB SPL at the microphones of the quietest wanted sound.</summary>
    public double? QuietestDecibels { get; init; }

    /// <summary>How far above the noise it is to lie, in dB.</summary>
    public double QuietMarginDecibels { get; init; } = CommonQuietMarginDecibels;

    /// <summary>The loudest sound at the microphones.</summary>
    public LoudestSound? Loudest { get; init; }

    /// <summary>Room to keep between the loudest peak and full scale, in dB.</summary>
    public double HeadroomDecibels { get; init; } = GainPlanRequest.CommonHeadroomDecibels;

    /// <summary>The wind protection both have to fit into.</summary>
    public WindProtection? Protection { get; init; }

    /// <summary>The most that may hang on the boom, in grams: both microphones and the protection, if one is named.</summary>
    public double? MostGrams { get; init; }

    /// <summary>The widest the mid may hear in mono: the full angle within which it is 6 dB down at most.</summary>
    public Degrees? MonoPickup { get; init; }

    /// <summary>The highest frequency that both microphones and the recorder have to reach.</summary>
    public Hertz? Highest { get; init; }

    /// <summary>Whether the pair must be heard decoded in the field.</summary>
    public bool Monitoring { get; init; }

    /// <summary>The recorder to use; null tries each of the kit.</summary>
    public string? Recorder { get; init; }

    /// <summary>What matters, the most first; each counts half as much as the one before it.</summary>
    public IReadOnlyList<Matter> Matters { get; init; } = [Matter.Coverage, Matter.Noise, Matter.Cost];
}
