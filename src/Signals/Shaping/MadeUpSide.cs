namespace Athwart.Signals.Shaping;

/// <summary>How a side is made up out of a mid.</summary>
public enum MadeUpMethod
{
    /// <summary>A chain of all-pass filters: every frequency as loud as in the mid, its phase scattered; dense, without an echo of its own.</summary>
    AllPass,

    /// <summary>Velvet noise: a sparse, fading row of copies, added and subtracted; like reflections from all around.</summary>
    VelvetNoise,
}

/// <summary>A side for a take that has none: made of the mid, unlike it, and therefore wide without a direction.</summary>
/// <remarks>
/// It lives in the side alone, so the mono is the take as it was, to the bit. What it is stands in <see cref="IsMadeUp"/> and
/// <see cref="Label"/>: whoever writes a recipe or metadata says it there, for such a width was never in front of a microphone.
/// </remarks>
public sealed record MadeUpSide
{
    /// <summary>What a recipe, a report and metadata call it.</summary>
    public const string Label = "side made up from the mid";

    /// <summary>Names how the side is made.</summary>
    /// <param name="method">All-pass or velvet noise.</param>
    /// <param name="levelDecibels">Level of the made-up side against the mid above the lowest frequency, −60 to +12 dB; −6 unless stated, a correlation of left and right of 0.6.</param>
    /// <param name="spreadSeconds">Over how long a click is spread, 0.005 to 0.1 s; 0.03 unless stated. Longer is larger, and blurs what is sharp.</param>
    /// <param name="lowestHertz">Below it the side stays silent, 12 dB an octave, 20 to 1000 Hz; 120 unless stated, for low frequencies carry no width.</param>
    /// <param name="seed">Which of many such sides, 0 or more.</param>
    /// <param name="keepsSide">Whether a side that is there stays and the made-up one is added to it; else it is replaced.</param>
    /// <exception cref="ArgumentOutOfRangeException">A setting is out of range.</exception>
    public MadeUpSide(MadeUpMethod method, double levelDecibels = -6, double spreadSeconds = 0.03, double lowestHertz = 120, int seed = 0, bool keepsSide = false)
    {
        Method = method is MadeUpMethod.AllPass or MadeUpMethod.VelvetNoise ? method
            : throw new ArgumentOutOfRangeException(nameof(method), method, "A side is made up by all-pass or velvet noise; name one of them.");
        LevelDecibels = SettingsRules.Within(levelDecibels, -60, 12, "dB");
        SpreadSeconds = SettingsRules.Within(spreadSeconds, 0.005, 0.1, "s");
        LowestHertz = SettingsRules.Within(lowestHertz, 20, 1000, "Hz");
        Seed = (int)SettingsRules.Within(seed, 0, int.MaxValue, "", nameof(seed));
        KeepsSide = keepsSide;
    }

    /// <summary>How.</summary>
    public MadeUpMethod Method { get; }

    /// <summary>Level against the mid, in decibels.</summary>
    public double LevelDecibels { get; }

    /// <summary>Over how long a click is spread, in seconds.</summary>
    public double SpreadSeconds { get; }

    /// <summary>Below it the side stays silent, in hertz.</summary>
    public double LowestHertz { get; }

    /// <summary>Which of many such sides.</summary>
    public int Seed { get; }

    /// <summary>Whether a side that is there stays beneath it.</summary>
    public bool KeepsSide { get; }

    /// <summary>Always: it was not recorded.</summary>
    public bool IsMadeUp { get; } = true;
}
