using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>What was measured in one channel: mid, side, or the decoded left or right. Silence reads −∞.</summary>
public sealed record RoleMeasures
{
    /// <summary>Which channel.</summary>
    public required ChannelRole Role { get; init; }

    /// <summary>The largest magnitude of a sample.</summary>
    public DecibelsFullScale SamplePeak { get; init; } = DecibelsFullScale.Silence;

    /// <summary>The frame of the sample peak; the first of equals; 0 for silence.</summary>
    public FrameIndex SamplePeakAt { get; init; }

    /// <summary>The true peak in dBTP by BS.1770-5 Annex 2, never below the sample peak.</summary>
    public DecibelsFullScale TruePeak { get; init; } = DecibelsFullScale.Silence;

    /// <summary>The root mean square over the whole take, DC included, re a constant of 1 (a full-scale sine reads −3.01).</summary>
    public DecibelsFullScale Rms { get; init; } = DecibelsFullScale.Silence;

    /// <summary>The mean of all samples, full scale 1; 0 for an empty take.</summary>
    public double DcOffset { get; init; }

    /// <summary>Standard error of <see cref="DcOffset"/> from the spread of the 100 ms means; +∞ below 1 s.</summary>
    public double DcUncertainty { get; init; } = double.PositiveInfinity;

    /// <summary>
    /// The level that 95 % of the 400 ms windows exceed, DC removed, root mean square; windows of digital silence are left out.
    /// In a take that never falls quiet this is the level of the sound itself. −∞ below 400 ms.
    /// </summary>
    public DecibelsFullScale NoiseFloor { get; init; } = DecibelsFullScale.Silence;

    /// <summary>The same after K-weighting, which takes rumble out.</summary>
    public DecibelsFullScale NoiseFloorWeighted { get; init; } = DecibelsFullScale.Silence;

    /// <summary>The loudest 400 ms (100 ms grid), root mean square, DC removed.</summary>
    public DecibelsFullScale LoudestRms { get; init; } = DecibelsFullScale.Silence;

    /// <summary>The highest frequency at which anything above the numerical floor was found; 0 Hz for silence or when not asked for.</summary>
    public Hertz HighestUsefulFrequency { get; init; }

    /// <summary>How far the spectrum falls at once just above <see cref="HighestUsefulFrequency"/>; 0 dB when there is no edge.</summary>
    public Decibels BandEdgeDrop { get; init; }

    /// <summary>
    /// The highest frequency at which sound lies above the noise, to a twelfth of an octave; 0 Hz when none does from 1 kHz on, below
    /// 16 transformed blocks, or when faults were not asked for.
    /// </summary>
    public Hertz HighestSoundFrequency { get; init; }

    /// <summary>How many octaves down, at a lower speed, bring the top of the sound to 20 kHz: log2(f/20 kHz), 0 where it lies there already or lower.</summary>
    public double OctavesDown => HighestSoundFrequency.Value > 20_000 ? Math.Log2(HighestSoundFrequency.Value / 20_000) : 0;

    /// <summary>Whether every sample has the same value.</summary>
    public bool IsConstant { get; init; }

    /// <summary>Samples that were not finite or beyond ±10⁹; they were metered as 0.</summary>
    public long NotFinite { get; init; }

    /// <summary>Runs of 3 or more samples at integer full scale; for left and right: frames beyond full scale after decoding.</summary>
    public SampleRuns FullScale { get; init; } = SampleRuns.None;

    /// <summary>Floating-point samples beyond ±1, each run of any length.</summary>
    public SampleRuns FloatOvers { get; init; } = SampleRuns.None;

    /// <summary>
    /// Flat tops: 4 or more equal samples at a peak below full scale that the curve around them would have passed; where there are not
    /// three of these, samples at one ceiling that hold most of what comes within 1 % of it.
    /// </summary>
    public SampleRuns FlatTops { get; init; } = SampleRuns.None;

    /// <summary>Share, 0 to 1, of the flat tops within 0.2 dB of the highest of their polarity: near 1 when something clipped.</summary>
    public double FlatTopsAtCeiling { get; init; }

    /// <summary>Runs of exact zeros of 50 ms or longer.</summary>
    public SampleRuns DigitalSilence { get; init; } = SampleRuns.None;
}
