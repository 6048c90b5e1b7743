using Athwart.Quantities;

namespace Athwart.Metering.LineUp;

/// <summary>One sound of a line-up.</summary>
/// <param name="Onset">Its first frame.</param>
/// <param name="Direction">Where it came from by the order.</param>
/// <param name="SideOverMidDecibels">The side over the mid in the direct sound; a bound when one is lost in the noise.</param>
/// <param name="SignalOverNoiseDecibels">The stronger channel's direct sound over the noise before it.</param>
/// <param name="IsSustained">Whether it went on, as a voice does.</param>
public sealed record LineUpSound(long Onset, LineUpDirection Direction, double SideOverMidDecibels, double SignalOverNoiseDecibels, bool IsSustained);

/// <summary>All sounds of one direction together.</summary>
public sealed record LineUpDirectionMeasure
{
    /// <summary>The direction.</summary>
    public required LineUpDirection Direction { get; init; }

    /// <summary>How many sounds were measured.</summary>
    public required int Sounds { get; init; }

    /// <summary>Level of the direct sound in the mid, in dB against that of all directions' loudest.</summary>
    public required Estimate MidLevel { get; init; }

    /// <summary>Side over mid in dB.</summary>
    public required Estimate SideOverMid { get; init; }

    /// <summary>Side over mid as an amplitude ratio with its sign: above 0 when in phase, the side as recorded.</summary>
    public required Estimate SignedRatio { get; init; }

    /// <summary>Frames by which the side comes after the mid.</summary>
    public required Estimate Delay { get; init; }
}

/// <summary>Response of the side against the mid in one third octave, its overall gain taken out.</summary>
/// <param name="NominalHertz">The band's frequency.</param>
/// <param name="Mismatch">Side over mid in dB, less the gain offset; cannot be told where the noise or the window forbid.</param>
/// <param name="CorrectionDecibels">What the side is to be raised by: the contrary of the mismatch, bounded to ±12 dB, 0 where it cannot be told.</param>
public sealed record ResponseBand(double NominalHertz, Estimate Mismatch, double CorrectionDecibels);

/// <summary>Noise of one channel in one third octave.</summary>
/// <param name="NominalHertz">The band's frequency.</param>
/// <param name="DecibelsFullScale">Root mean square level of the band; a full-scale sine reads −3.01.</param>
public sealed record NoiseBand(double NominalHertz, double DecibelsFullScale);

/// <summary>Noise of one channel in the quiet parts.</summary>
public sealed record ChannelNoiseMeasure
{
    /// <summary>Root mean square level from 20 Hz up in dBFS; a full-scale sine reads −3.01.</summary>
    public required Estimate Level { get; init; }

    /// <summary>The same with the A weighting.</summary>
    public required Estimate WeightedLevel { get; init; }

    /// <summary>Third octaves from 20 Hz up; empty when there was no quiet part.</summary>
    public required IReadOnlyList<NoiseBand> Bands { get; init; }

    /// <summary>The lowest third octave, in hertz, in which the sounds stand 10 dB above the noise.</summary>
    public required Estimate LowestHertz { get; init; }
}

/// <summary>What a line-up says of a rig.</summary>
public sealed record LineUpResult
{
    /// <summary>Frames a second.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>Whether channel 1 of the two is the mid; the likelier answer even where it cannot be told.</summary>
    public required Verdict FirstIsMid { get; init; }

    /// <summary>Whether the side's positive lobe points right, so that it must be turned over.</summary>
    public required Verdict SideInverted { get; init; }

    /// <summary>The side's sensitivity on its axis over the mid's on its own, gains included, in dB.</summary>
    public required Estimate GainOffset { get; init; }

    /// <summary>Frames by which the side is late, spacing taken out; below 0 when it is early.</summary>
    public required Estimate Delay { get; init; }

    /// <summary>Metres by which the side's capsule is ahead of the mid's.</summary>
    public required Estimate SpacingForward { get; init; }

    /// <summary>Metres by which the side's capsule is to the left of the mid's.</summary>
    public required Estimate SpacingLeft { get; init; }

    /// <summary>The angle between front and the side's positive lobe in degrees, once its polarity is right; 90 as it should be.</summary>
    public required Estimate SideAngle { get; init; }

    /// <summary>A of the mid's pattern A + (1 − A)·cos a as the sounds have it, if all are equally loud.</summary>
    public required Estimate MeasuredMidPattern { get; init; }

    /// <summary>A that the gain offset rests on.</summary>
    public required double MidPattern { get; init; }

    /// <summary>Third octaves that could be asked about.</summary>
    public required IReadOnlyList<ResponseBand> Response { get; init; }

    /// <summary>Noise of the first and of the second channel.</summary>
    public required IReadOnlyList<ChannelNoiseMeasure> Noise { get; init; }

    /// <summary>Each sound.</summary>
    public required IReadOnlyList<LineUpSound> Sounds { get; init; }

    /// <summary>Each direction.</summary>
    public required IReadOnlyList<LineUpDirectionMeasure> Directions { get; init; }

    /// <summary>What was taken for granted, a sentence each.</summary>
    public required IReadOnlyList<string> Assumptions { get; init; }

    /// <summary>What is not plausible, or could not be told.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }
}
