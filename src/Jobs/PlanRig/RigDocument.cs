namespace Athwart.Jobs.PlanRig;

/// <summary>A rig as data: what the tables, the pages and the JSON show. docs/rig.md documents the fields; units are in the names, what is null is not known or never reached.</summary>
public sealed record RigDocument
{
    /// <summary>The version of this layout.</summary>
    public const int CurrentVersion = 1;

    /// <summary>Always <see cref="CurrentVersion"/>.</summary>
    public int AthwartRig { get; init; } = CurrentVersion;

    /// <summary>The rig in one line, as the commands read it.</summary>
    public required string Rig { get; init; }

    /// <summary>The parts and what they cost.</summary>
    public required PartsSection Parts { get; init; }

    /// <summary>The side level and how it was found.</summary>
    public required SideLevelSection SideLevel { get; init; }

    /// <summary>The crossed pair it is equal to.</summary>
    public required VirtualPairSection VirtualPair { get; init; }

    /// <summary>The sector that fills the whole width.</summary>
    public required CoverageSection Coverage { get; init; }

    /// <summary>In a diffuse field.</summary>
    public required DiffuseSection Diffuse { get; init; }

    /// <summary>Where sources land, from 180° right over the front to 180° left.</summary>
    public required IReadOnlyList<SourceRow> Sources { get; init; }

    /// <summary>What happens to sources behind, one sentence for each of a few directions.</summary>
    public required IReadOnlyList<BehindRow> Behind { get; init; }

    /// <summary>By third-octave bands.</summary>
    public required IReadOnlyList<BandRow> Bands { get; init; }

    /// <summary>What the bands mean, in plain words.</summary>
    public required IReadOnlyList<string> OverFrequency { get; init; }

    /// <summary>The side's delay against the mid; null without a spacing.</summary>
    public DelaySection? Delay { get; init; }

    /// <summary>The gains; null without a recorder or levels.</summary>
    public GainSection? Gains { get; init; }

    /// <summary>The noise.</summary>
    public required NoiseSection Noise { get; init; }

    /// <summary>The subject; null without one.</summary>
    public SubjectSection? Subject { get; init; }

    /// <summary>Up to which frequency a slowed-down recording is worth anything; null when it was not asked.</summary>
    public ReachSection? Reach { get; init; }

    /// <summary>Card and batteries; null without a recorder.</summary>
    public PowerSection? Power { get; init; }

    /// <summary>Exposure; null when it was not asked.</summary>
    public ExposureSection? Exposure { get; init; }

    /// <summary>The cautions that apply.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <summary>What cannot be answered and why.</summary>
    public required IReadOnlyList<string> NotKnown { get; init; }
}

/// <summary>The parts.</summary>
public sealed record PartsSection(string Mid, string MidPattern, string Side, string? Recorder, string? Protection, double? WeightGrams, IReadOnlyList<string> ToBuy, IReadOnlyList<string> Cost, string? Fit);

/// <summary>The side level; null decibels is no side at all.</summary>
public sealed record SideLevelSection(double? Decibels, string How, bool Reached);

/// <summary>The virtual pair. The fit error is 0 for first-order patterns.</summary>
public sealed record VirtualPairSection(double IncludedAngleDegrees, double OmniShare, string Pattern, double? NullDegrees, double OnAxisGainDecibels, double MidTrimDecibels, double FitError);

/// <summary>Coverage at the asked threshold and at 15 and 18 dB.</summary>
public sealed record CoverageSection(double ThresholdDecibels, double? Degrees, double? At15Degrees, double? At18Degrees);

/// <summary>In a diffuse field, and the directivity of mid and of left and right.</summary>
public sealed record DiffuseSection(double? Correlation, double MidDirectivityIndexDecibels, double MidDistanceFactor, double LeftRightDirectivityIndexDecibels, double LeftRightDistanceFactor, double DirectToDiffuseDecibels, double RearSharePercent, double? RearDecibels);

/// <summary>Where a source lands. The image is in degrees between the loudspeakers at ±30, by the tangent law; percent by 7.5 % per dB, from memory.</summary>
public sealed record SourceRow(double AzimuthDegrees, double? LeftMinusRightDecibels, double? ImageDegrees, double? ImagePercent, bool FullySideways, bool OppositePolarity, bool WrongSide, double? AgainstFrontDecibels);

/// <summary>A source behind.</summary>
public sealed record BehindRow(double AzimuthDegrees, double? AgainstFrontDecibels, string Words);

/// <summary>A third-octave band; a side level of null is no side.</summary>
public sealed record BandRow(double Hertz, double? SideLevelDecibels, double? CoverageDegrees, double? Correlation, double MidDirectivityIndexDecibels, double IncludedAngleDegrees);

/// <summary>The delay of the side against the mid; positive is later.</summary>
public sealed record DelaySection(double SpeedOfSoundMetresPerSecond, double LongestMicroseconds, double LongestSamples, double? FirstNullHertz, IReadOnlyList<DelayRow> Rows);

/// <summary>The delay of a source at an azimuth.</summary>
public sealed record DelayRow(double AzimuthDegrees, double Microseconds, double Samples);

/// <summary>The gains.</summary>
public sealed record GainSection(ChannelRow Mid, ChannelRow Side, double? MatchDecibels, double? TrimDecibels, double? SharedGainDecibels, double? SharedTrimDecibels, IReadOnlyList<string> Messages);

/// <summary>One channel of the gain plan.</summary>
public sealed record ChannelRow(double? GainDecibels, double? LoudestDecibelsFullScale, double? QuietestDecibelsFullScale, double? NoiseDecibelsFullScale, double? MicrophoneMarginDecibels, double? InputMarginAtLowestGainDecibels);

/// <summary>The noise of the decode, in dBA as sound on the mid's axis.</summary>
public sealed record NoiseSection(double? LeftRightDecibelsA, double? MonoDecibelsA, double? SideCostDecibels, double? SignalToNoiseDecibels, double? MonoSignalToNoiseDecibels, bool? MicrophonesDominate, IReadOnlyList<NoiseRow> Parts);

/// <summary>A part of the noise.</summary>
public sealed record NoiseRow(string Origin, double? DecibelsA);

/// <summary>The subject and how it lands; the suiting side level is null when this mid cannot reach the suiting coverage.</summary>
public sealed record SubjectSection(string What, double AngleDegrees, double LeftEdgeDegrees, double RightEdgeDegrees, double SuitingCoverageDegrees, double? SuitingSideLevelDecibels, double? LeftSharePercent, double? RightSharePercent, string Verdict, double? LevelChangeDecibels, double? Seconds);

/// <summary>Up to which frequency it is worth recording for slowing down.</summary>
public sealed record ReachSection(double? HighestHertz, string? LimitedBy, double? AboveNoiseHertz, double? AirDecibels, IReadOnlyList<ReachRow> Rows);

/// <summary>What reaches the rig in a third octave: the source's level there, what the air took, and the rig's own noise in it.</summary>
public sealed record ReachRow(double Hertz, double LevelDecibels, double AirDecibels, double? NoiseDecibels);

/// <summary>Card and batteries.</summary>
public sealed record PowerSection(double HoursPerGigabyte, double? CardHours, double? SplitMinutes, double? PhantomMilliamperes, bool? PhantomSuffices, double? BatteryHours, bool? RateSuffices);

/// <summary>Exposure of the day.</summary>
public sealed record ExposureSection(double? NioshDosePercent, double? DailyDecibelsA, string European, bool TooMuch, IReadOnlyList<string> Lines);
