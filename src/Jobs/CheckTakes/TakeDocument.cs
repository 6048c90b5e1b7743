using Athwart.Metering;
using Athwart.Quantities;

namespace Athwart.Jobs.CheckTakes;

/// <summary>One take in the JSON of a check.</summary>
public sealed record TakeDocument
{
    /// <summary>The take's name.</summary>
    public required string Name { get; init; }

    /// <summary>The files it is made of, in order.</summary>
    public required IReadOnlyList<string> Files { get; init; }

    /// <summary>single, mono-pair, split or split-mono-pair.</summary>
    public required string Join { get; init; }

    /// <summary>Why the files belong together.</summary>
    public required IReadOnlyList<string> JoinEvidence { get; init; }

    /// <summary>Channels of the take.</summary>
    public required int Channels { get; init; }

    /// <summary>Sample rate in hertz.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>Bits a sample that carry sound.</summary>
    public required int Bits { get; init; }

    /// <summary>Whether the samples are floating-point.</summary>
    public required bool IsFloat { get; init; }

    /// <summary>Length in frames.</summary>
    public required long Frames { get; init; }

    /// <summary>Length in seconds.</summary>
    public required double Seconds { get; init; }

    /// <summary>Which channel is which.</summary>
    public required RolesDocument Roles { get; init; }

    /// <summary>The mid.</summary>
    public required RoleDocument Mid { get; init; }

    /// <summary>The side; null when the take has none.</summary>
    public required RoleDocument? Side { get; init; }

    /// <summary>The left of the predicted decode.</summary>
    public required RoleDocument Left { get; init; }

    /// <summary>The right of the predicted decode.</summary>
    public required RoleDocument Right { get; init; }

    /// <summary>RMS of the side above that of the mid, in dB; null when either is silent.</summary>
    public required double? SideMinusMidDecibels { get; init; }

    /// <summary>Correlation of mid and side over the whole take, −1 to 1; 0 when either is silent.</summary>
    public required double? MidSideCorrelation { get; init; }

    /// <summary>Correlation of the predicted left and right over the whole take.</summary>
    public required double? LeftRightCorrelation { get; init; }

    /// <summary>The lowest correlation of the predicted left and right over any 400 ms.</summary>
    public required double? WorstLeftRightCorrelation { get; init; }

    /// <summary>Where that was, in seconds; null when there was no sound.</summary>
    public required double? WorstLeftRightSeconds { get; init; }

    /// <summary>Loudness of the predicted decode.</summary>
    public required LoudnessDocument Loudness { get; init; }

    /// <summary>How the recorder's own left and right relate to the pair; null when there are none.</summary>
    public required RecordedDecodeDocument? RecordedDecode { get; init; }

    /// <summary>What is known of the side's polarity.</summary>
    public required PolarityDocument Polarity { get; init; }

    /// <summary>The rig's profile that was taken into account; null when none is attached to the session.</summary>
    public required RigUsedDocument? Rig { get; init; }

    /// <summary>Where the dominant sound was; null when it was not listened for.</summary>
    public required DirectionTrailDocument? Direction { get; init; }

    /// <summary>Width, lean and mono; null when they were not asked for.</summary>
    public required WidthDocument? Width { get; init; }

    /// <summary>Everything wrong or noteworthy, worst first.</summary>
    public required IReadOnlyList<FindingDocument> Findings { get; init; }

    /// <summary>From the check of one take.</summary>
    public static TakeDocument From(TakeCheck check)
    {
        ArgumentNullException.ThrowIfNull(check);
        var (take, m) = (check.Take, check.Measures);
        return new()
        {
            Name = take.Name,
            Files = [.. take.Parts.Select(p => p.Path).Distinct(StringComparer.Ordinal)],
            Join = JsonNumber.Word(take.Join.ToString()),
            JoinEvidence = take.Evidence,
            Channels = take.ChannelCount,
            SampleRateHertz = take.SampleRateHertz,
            Bits = take.Format.ValidBits,
            IsFloat = !take.Format.IsInteger,
            Frames = take.FrameCount,
            Seconds = Math.Round((double)take.FrameCount / take.SampleRateHertz, 6),
            Roles = RolesDocument.From(check.Roles),
            Mid = RoleDocument.From(m.Mid),
            Side = check.Roles.SideChannel is null ? null : RoleDocument.From(m.Side),
            Left = RoleDocument.From(m.Left),
            Right = RoleDocument.From(m.Right),
            SideMinusMidDecibels = JsonNumber.Finite(m.SideMinusMid.Value),
            MidSideCorrelation = JsonNumber.Finite(m.MidSideCorrelation),
            LeftRightCorrelation = JsonNumber.Finite(m.Correlation.Whole),
            WorstLeftRightCorrelation = JsonNumber.Finite(m.Correlation.Worst),
            WorstLeftRightSeconds = m.Correlation.WorstRange?.From.At(take.SampleRateHertz).TotalSeconds,
            Loudness = LoudnessDocument.From(m.Loudness),
            RecordedDecode = check.RecordedDecode is { } match ? RecordedDecodeDocument.From(match) : null,
            Polarity = PolarityDocument.From(check),
            Rig = check.Rig is { } rig ? RigUsedDocument.From(rig) : null,
            Direction = check.Direction is { } trail ? DirectionTrailDocument.From(trail) : null,
            Width = check.Width is { } width ? WidthDocument.From(width, take.SampleRateHertz) : null,
            Findings = [.. check.Findings.Select((f, i) => FindingDocument.From(f, take.SampleRateHertz, check.Roles) with { Picture = i < check.Pictures.Count ? check.Pictures[i] : null })],
        };
    }
}

/// <summary>Which channel is which; channels count from 1.</summary>
public sealed record RolesDocument(int Mid, int? Side, bool SideInverted, int? Left, int? Right, string Evidence, string Explanation)
{
    /// <summary>From an assignment.</summary>
    public static RolesDocument From(Roles.RoleAssignment roles)
    {
        ArgumentNullException.ThrowIfNull(roles);
        return new(roles.MidChannel + 1, roles.SideChannel + 1, roles.SideInverted, roles.LeftChannel + 1, roles.RightChannel + 1, JsonNumber.Word(roles.Evidence.ToString()), roles.Explanation);
    }
}

/// <summary>The measures of one role; levels in dBFS, null for silence.</summary>
public sealed record RoleDocument(
    double? SamplePeakDbfs,
    double? TruePeakDbtp,
    double? RmsDbfs,
    double? DcOffset,
    double? NoiseFloorDbfs,
    double? HighestUsefulHertz,
    double? HighestSoundHertz,
    double? OctavesDown,
    string? Bandwidth,
    long FullScaleRuns,
    long LongestFullScaleRun,
    long FlatTopRuns,
    long DigitalSilenceFrames)
{
    /// <summary>From the measures of a role.</summary>
    public static RoleDocument From(RoleMeasures role)
    {
        ArgumentNullException.ThrowIfNull(role);
        return new(
            JsonNumber.Finite(role.SamplePeak.Value),
            JsonNumber.Finite(role.TruePeak.Value),
            JsonNumber.Finite(role.Rms.Value),
            JsonNumber.Finite(role.DcOffset),
            JsonNumber.Finite(role.NoiseFloor.Value),
            JsonNumber.Finite(role.HighestUsefulFrequency.Value),
            role.HighestSoundFrequency.Value > 0 ? JsonNumber.Finite(role.HighestSoundFrequency.Value) : null,
            role.HighestSoundFrequency.Value > 0 ? JsonNumber.Finite(role.OctavesDown) : null,
            BandwidthWords.Of(role),
            role.FullScale.Count,
            role.FullScale.LongestFrames,
            role.FlatTops.Count,
            role.DigitalSilence.Frames);
    }
}

/// <summary>Loudness of the predicted decode; null for silence.</summary>
public sealed record LoudnessDocument(double? IntegratedLufs, double? MaxMomentaryLufs, double? MaxShortTermLufs, double? RangeLu)
{
    /// <summary>From loudness measures.</summary>
    public static LoudnessDocument From(LoudnessMeasures loudness)
    {
        ArgumentNullException.ThrowIfNull(loudness);
        return new(JsonNumber.Finite(loudness.Integrated.Value), JsonNumber.Finite(loudness.MaxMomentary.Value), JsonNumber.Finite(loudness.MaxShortTerm.Value), JsonNumber.Finite(loudness.Range.Value));
    }
}

/// <summary>How the recorder's own left and right relate to mid and side.</summary>
public sealed record RecordedDecodeDocument(bool IsDecode, double? SideLevelDecibels, double? ResidualDecibels)
{
    /// <summary>From a match.</summary>
    public static RecordedDecodeDocument From(DecodedPairMatch match)
    {
        ArgumentNullException.ThrowIfNull(match);
        return new(match.Verdict == DecodedPairVerdict.Decode, JsonNumber.Finite(match.SideLevel.Value), JsonNumber.Finite(match.Residual.Value));
    }
}

/// <summary>One finding. Times are seconds and frames from the start of the take; null means the whole take.</summary>
public sealed record FindingDocument(
    string Kind,
    string Severity,
    string? Role,
    int? Channel,
    string? File,
    long? FromFrame,
    long? ToFrame,
    double? FromSeconds,
    double? ToSeconds,
    double? Size,
    string? SizeUnit,
    double Confidence,
    string Message,
    string Remedy,
    IReadOnlyList<EvidenceDocument> Evidence)
{
    /// <summary>The file of the picture that shows it; null when no pictures were asked for.</summary>
    public string? Picture { get; init; }

    /// <summary>From a finding.</summary>
    public static FindingDocument From(Finding finding, int sampleRateHertz, Roles.RoleAssignment roles)
    {
        ArgumentNullException.ThrowIfNull(finding);
        ArgumentNullException.ThrowIfNull(roles);
        return new(
            finding.Kind,
            JsonNumber.Word(finding.Severity.ToString()),
            finding.Role is { } role ? JsonNumber.Word(role.ToString()) : null,
            ChannelOf(finding.Role, roles),
            finding.File,
            finding.Range?.From.Value,
            finding.Range?.To.Value,
            Seconds(finding.Range?.From, sampleRateHertz),
            Seconds(finding.Range?.To, sampleRateHertz),
            finding.Size is { } size ? JsonNumber.Finite(size) : null,
            finding.Size is null ? null : finding.SizeUnit,
            Math.Round(finding.Confidence, 3),
            finding.Message,
            finding.Remedy,
            [.. finding.Evidence.Select(e => new EvidenceDocument(e.Name, JsonNumber.Finite(e.Value), e.Unit))]);
    }

    // Left and right are predicted: they lie in no channel.
    private static int? ChannelOf(ChannelRole? role, Roles.RoleAssignment roles) => role switch
    {
        ChannelRole.Mid => roles.MidChannel + 1,
        ChannelRole.Side => roles.SideChannel + 1,
        _ => null,
    };

    private static double? Seconds(FrameIndex? frame, int rate) => frame is { } f ? Math.Round((double)f.Value / rate, 6) : null;
}

/// <summary>A number a finding rests on; null for infinite.</summary>
public sealed record EvidenceDocument(string Name, double? Value, string Unit);
