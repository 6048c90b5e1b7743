namespace Athwart.Scenes.Faults;

/// <summary>The fixed words for what a scene can have wrong.</summary>
public static class FaultKinds
{
    /// <summary>Side in the first channel, mid in the second. Size 1.</summary>
    public const string RolesSwapped = "roles-swapped";

    /// <summary>The side's polarity is inverted. Size 1.</summary>
    public const string SideInverted = "side-inverted";

    /// <summary>Left and right instead of mid and side. Size: side level in dB.</summary>
    public const string AlreadyDecoded = "already-decoded";

    /// <summary>The same samples twice. Size: 0 dB.</summary>
    public const string DualMono = "dual-mono";

    /// <summary>The side is the mid at another level. Size: dB.</summary>
    public const string ScaledCopy = "scaled-copy";

    /// <summary>A role brings no sound. Size: −∞ dB.</summary>
    public const string RoleDead = "role-dead";

    /// <summary>A role is too soft. Size: dB, negative.</summary>
    public const string RoleWeak = "role-weak";

    /// <summary>A role is too loud. Size: dB, positive.</summary>
    public const string RoleStrong = "role-strong";

    /// <summary>Clipped at full scale. Size: how far the sound would have gone beyond, dB; places: the runs.</summary>
    public const string FullScale = "full-scale";

    /// <summary>Clipped before the converter. Size: how far the sound would have gone beyond, dB; places: the runs before anything that follows the limit.</summary>
    public const string FlatTops = "flat-tops";

    /// <summary>Only left or right goes beyond full scale. Size: dB beyond, at unity side.</summary>
    public const string DecodedOverload = "decoded-overload";

    /// <summary>Float samples beyond full scale. Size: dB beyond.</summary>
    public const string FloatOvers = "float-overs";

    /// <summary>Turbulent pressure at the capsules. Size: dB SPL, root mean square.</summary>
    public const string Wind = "wind";

    /// <summary>Low sound both capsules share through the stand. Size: dB SPL, root mean square.</summary>
    public const string Rumble = "rumble";

    /// <summary>Thumps on the stand. Size: dB SPL, peak.</summary>
    public const string Handling = "handling";

    /// <summary>Mains. Size: dBFS, root mean square of all harmonics; details: 'fundamental' in Hz, 'harmonic n' in dB.</summary>
    public const string Hum = "hum";

    /// <summary>A narrow line. Size: dBFS, root mean square; details: 'from', 'to' in Hz.</summary>
    public const string Tone = "tone";

    /// <summary>A line above 20 kHz. Size and details as a tone's.</summary>
    public const string UltrasonicSpur = "ultrasonic-spur";

    /// <summary>Single wrong samples. Size: full-scale units added; places: each.</summary>
    public const string Clicks = "clicks";

    /// <summary>Runs of zeros. Size: frames of the longest; places: each.</summary>
    public const string Dropouts = "dropouts";

    /// <summary>A run that holds the sample before it. Size: frames; the range is the samples that repeat it.</summary>
    public const string HeldValue = "held-value";

    /// <summary>A block that comes twice. Size: frames; the range is the second copy.</summary>
    public const string RepeatedBlock = "repeated-block";

    /// <summary>A block that is missing. Size: frames; the range is empty at the joint.</summary>
    public const string MissingBlock = "missing-block";

    /// <summary>The level steps at the range's start. Size: dB.</summary>
    public const string LevelJump = "level-jump";

    /// <summary>A constant added. Size: full-scale units.</summary>
    public const string DcOffset = "dc-offset";

    /// <summary>The side comes late beyond what spacing explains. Size: samples, negative when early.</summary>
    public const string LateSide = "late-side";

    /// <summary>The side's low end is missing. Size: the corner in Hz.</summary>
    public const string SideLowEndMissing = "side-low-end-missing";

    /// <summary>White noise added at the input. Size: dBFS, root mean square.</summary>
    public const string Hiss = "hiss";

    /// <summary>Made at a lower rate than the file's. Size: that rate in Hz; detail: 'highest' in Hz.</summary>
    public const string LowRateSource = "low-rate-source";

    /// <summary>The sources are silent. Size: seconds.</summary>
    public const string LongSilence = "long-silence";

    /// <summary>The take stops early. Size: seconds that are missing.</summary>
    public const string EarlyEnd = "early-end";

    /// <summary>A voice announces the take. Size: seconds.</summary>
    public const string Slate = "voice-slate";
}
