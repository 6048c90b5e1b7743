namespace Athwart.Metering;

/// <summary>The fixed words for what <see cref="TakeDetectors"/> finds; scripts may rely on them.</summary>
public static class FindingKinds
{
    /// <summary>Three or more samples in a row at integer full scale.</summary>
    public const string FullScaleRuns = "full-scale-runs";

    /// <summary>Peaks cut flat below full scale.</summary>
    public const string FlatTops = "flat-tops";

    /// <summary>Floating-point samples beyond full scale, which are not damaged.</summary>
    public const string FloatOvers = "float-overs";

    /// <summary>Left or right goes beyond full scale only once decoded.</summary>
    public const string DecodedOverload = "decoded-overload";

    /// <summary>One channel holds nothing while the other holds sound.</summary>
    public const string DeadChannel = "dead-channel";

    /// <summary>Mid and side are the same samples, or the same with the polarity inverted.</summary>
    public const string IdenticalChannels = "identical-channels";

    /// <summary>The side is a scaled copy of the mid.</summary>
    public const string ScaledCopy = "scaled-copy";

    /// <summary>Exact zeros inside the take.</summary>
    public const string DigitalSilence = "digital-silence";

    /// <summary>The whole take holds no sound.</summary>
    public const string SilentTake = "silent-take";

    /// <summary>A steady offset from zero.</summary>
    public const string DcOffset = "dc-offset";

    /// <summary>The side is much softer than the mid.</summary>
    public const string SideWeak = "side-weak";

    /// <summary>The side is much louder than the mid.</summary>
    public const string SideStrong = "side-strong";

    /// <summary>A passage in which left and right, once decoded, are strongly opposed.</summary>
    public const string LowCorrelation = "low-correlation";

    /// <summary>The whole decode is opposed: the side outweighs the mid.</summary>
    public const string OutOfPhase = "out-of-phase";

    /// <summary>The spectrum ends far below half the sample rate.</summary>
    public const string LowBandwidth = "low-bandwidth";

    /// <summary>The side brings more noise than the mid.</summary>
    public const string SideNoise = "side-noise";

    /// <summary>The sound hardly rises above the noise floor of a quiet take.</summary>
    public const string NoisyTake = "noisy-take";

    /// <summary>Samples that are not finite numbers.</summary>
    public const string NotFinite = "not-finite";

    /// <summary>Somebody speaks at the beginning: the announced head of the take.</summary>
    public const string VoiceSlate = "voice-slate";
}
