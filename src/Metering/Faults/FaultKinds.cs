namespace Athwart.Metering.Faults;

/// <summary>The fixed words for the faults found by listening closely; scripts may rely on them.</summary>
public static class FaultKinds
{
    /// <summary>A few samples that their neighbours do not foresee.</summary>
    public const string Click = "click";

    /// <summary>A channel stands still in the middle of sound, at zero or at the value before.</summary>
    public const string Dropout = "dropout";

    /// <summary>A block of samples written twice.</summary>
    public const string RepeatedBlock = "repeated-block";

    /// <summary>Mid and side jump at the same frame: samples are missing, or the take was put together.</summary>
    public const string MissingBlock = "missing-block";

    /// <summary>One channel jumps.</summary>
    public const string Discontinuity = "discontinuity";

    /// <summary>One channel's gain changes at once and stays.</summary>
    public const string LevelJump = "level-jump";

    /// <summary>Lines at 50 or 60 Hz and their multiples.</summary>
    public const string Hum = "hum";

    /// <summary>Low-frequency bursts of turbulence.</summary>
    public const string Wind = "wind";

    /// <summary>Short low thumps.</summary>
    public const string Handling = "handling";

    /// <summary>Steady sound at the very low end.</summary>
    public const string Rumble = "rumble";

    /// <summary>The side comes later or earlier than the mid.</summary>
    public const string SideDelay = "side-delay";

    /// <summary>The two channels look like left and right.</summary>
    public const string AlreadyDecoded = "already-decoded";

    /// <summary>The channel taken for the mid looks like the side.</summary>
    public const string RolesSwapped = "roles-swapped";

    /// <summary>The side has no low end.</summary>
    public const string SideLowEnd = "side-low-end";

    /// <summary>A steady narrow line.</summary>
    public const string Tone = "tone";

    /// <summary>A steady narrow line above 20 kHz.</summary>
    public const string UltrasonicTone = "ultrasonic-tone";

    /// <summary>A narrow line that moves evenly.</summary>
    public const string SweepingTone = "sweeping-tone";

    /// <summary>Mono loses much of a part of the spectrum.</summary>
    public const string MonoLoss = "mono-loss";

    /// <summary>A long stretch in which nothing happens.</summary>
    public const string LongQuiet = "long-quiet";

    /// <summary>The sound was cut off at the end.</summary>
    public const string EarlyEnd = "early-end";
}
