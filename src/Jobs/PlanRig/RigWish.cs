using Athwart.Quantities;

namespace Athwart.Jobs.PlanRig;

/// <summary>What fixes the side level of a rig.</summary>
public enum SideLevelFrom
{
    /// <summary>It is given in decibels.</summary>
    Given = 0,

    /// <summary>The coverage that is wanted, in degrees.</summary>
    Coverage,

    /// <summary>The included angle of the virtual pair, in degrees.</summary>
    IncludedAngle,

    /// <summary>The pattern of the virtual pair.</summary>
    Pattern,

    /// <summary>The coverage that suits the subject.</summary>
    Subject,
}

/// <summary>A rig in the recordist's words: names of the kit or patterns, and how the side level is found.</summary>
public sealed record RigWish
{
    /// <summary>The mid: a microphone of the kit ('name' or 'name: setting'), or a pattern.</summary>
    public required string Mid { get; init; }

    /// <summary>The side: a figure-8 of the kit, or 'figure-8'.</summary>
    public string Side { get; init; } = "figure-8";

    /// <summary>A recorder of the kit; null for none, so that gains and input noise are left out.</summary>
    public string? Recorder { get; init; }

    /// <summary>A wind protection of the kit; null for none.</summary>
    public string? Protection { get; init; }

    /// <summary>What fixes the side level.</summary>
    public SideLevelFrom From { get; init; }

    /// <summary>The side level, when it is given.</summary>
    public Decibels SideLevel { get; init; }

    /// <summary>The wanted coverage or included angle.</summary>
    public Degrees Angle { get; init; }

    /// <summary>The wanted pattern of the virtual pair, as a name or an omni share.</summary>
    public string Pattern { get; init; } = "";

    /// <summary>
    /// Reads 'MID + SIDE @ LEVEL': the side and the level may be left out and are then an ideal figure-8 and 0 dB. It is how the
    /// choice prints its pairs, so that one can be copied into the next command.
    /// </summary>
    /// <exception cref="JobException">The level is no number of decibels, or no mid is named.</exception>
    public static RigWish Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var (pair, level) = Split(text, '@');
        var (mid, side) = Split(pair, '+');
        if (mid.Length == 0)
            throw new JobException(JobErrorKind.WrongUse, $"'{text}' names no mid.", "Write a rig as 'MID + SIDE @ LEVEL', such as 'cardioid @ -3' or 'short shotgun A + small figure-8 A @ -4.5'.");
        if (!Decibels.TryParse(level.Length == 0 ? "0" : level, out var sideLevel))
            throw new JobException(JobErrorKind.WrongUse, $"'{level}' in '{text}' is no side level.", "Write decibels behind the @, such as '@ -3'.");
        return new() { Mid = mid, Side = side.Length == 0 ? "figure-8" : side, SideLevel = sideLevel };
    }

    private static (string Before, string After) Split(string text, char at)
    {
        var place = text.LastIndexOf(at);
        return place < 0 ? (text.Trim(), "") : (text[..place].Trim(), text[(place + 1)..].Trim());
    }
}
