namespace Athwart.Metering.Faults;

/// <summary>The fixed words for the faults found by listening closely; scripts may rely on them.</summary>
public static class FaultKinds
{
    /// <summary>A few samples that their neighbours do not foresee.</summary>
    public const string Click = "click";

    /// <summary>A short run of exact zeros in the middle of sound.</summary>
    public const string Dropout = "dropout";

    /// <summary>A block of samples written twice.</summary>
    public const string RepeatedBlock = "repeated-block";

    /// <summary>Mid and side jump at the same frame: samples are missing, or the take was put together.</summary>
    public const string MissingBlock = "missing-block";

    /// <summary>One channel jumps.</summary>
    public const string Discontinuity = "discontinuity";

    /// <summary>Lines at 50 or 60 Hz and their multiples.</summary>
    public const string Hum = "hum";

    /// <summary>Low-frequency bursts of turbulence.</summary>
    public const string Wind = "wind";

    /// <summary>Short low thumps.</summary>
    public const string Handling = "handling";

    /// <summary>Steady sound at the very low end.</summary>
    public const string Rumble = "rumble";
}
